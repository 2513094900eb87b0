"""What is on the card that stays by the boiler, and how is it printed?"""

from kb.card.changed import fingerprint
from kb.card.issue import card_of
from kb.card.press import CardError, pdf, png, svg
from kb.card.sizes import BOTH, Side, Size
from kb.card.value import Card, Reason, Refused, Style

__all__ = [
    "BOTH",
    "Card",
    "CardError",
    "Reason",
    "Refused",
    "Side",
    "Size",
    "Style",
    "card_of",
    "fingerprint",
    "pdf",
    "png",
    "svg",
]
