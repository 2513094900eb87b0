"""What is on the card that stays by the boiler, and how is it printed?"""

from kb.card.batch import Batch, together
from kb.card.changed import fingerprint
from kb.card.gather import A6_PLAIN, gathered
from kb.card.issue import card_of
from kb.card.press import CardError, pdf, png
from kb.card.reading import read_out
from kb.card.sizes import BOTH, Side, Size
from kb.card.value import Card, Reason, Refused, Style

__all__ = [
    "A6_PLAIN",
    "BOTH",
    "Batch",
    "Card",
    "CardError",
    "Reason",
    "Refused",
    "Side",
    "Size",
    "Style",
    "card_of",
    "fingerprint",
    "gathered",
    "pdf",
    "png",
    "read_out",
    "together",
]
