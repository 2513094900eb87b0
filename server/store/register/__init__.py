"""What the firm's own people know of a home, kept apart from what its key opens.

Whoever reads people's data or changes anything says by which account, and the trail has it before they have the data.
"""

from server.store.register.audit import Did, Entry, Look
from server.store.register.cards import Printed
from server.store.register.choosing import ChosenHome
from server.store.register.erasing import Erased
from server.store.register.finding import Hit
from server.store.register.lists import EVERYTHING, Lists
from server.store.register.papers import Paper
from server.store.register.register import Register
from server.store.register.reviewing import Review
from server.store.register.seeing import Seen
from server.store.register.taking import Taken, Tell

__all__ = [
    "EVERYTHING",
    "ChosenHome",
    "Did",
    "Entry",
    "Erased",
    "Hit",
    "Lists",
    "Look",
    "Paper",
    "Printed",
    "Register",
    "Review",
    "Seen",
    "Taken",
    "Tell",
]
