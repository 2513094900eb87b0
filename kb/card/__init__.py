"""What is on the card that stays by the boiler, and how is it printed?"""

from kb.card.issue import card_of
from kb.card.press import CardError, pdf, picture
from kb.card.value import Card, Reason, Refused

__all__ = ["Card", "CardError", "Reason", "Refused", "card_of", "pdf", "picture"]
