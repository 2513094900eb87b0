"""Who lives in a home, where it is and what stands in it: what the firm's own people see, and never a household's page.

`kb.home.Home` is what a key opens and holds nothing about people; a `Record` is all that is known.
"""

from kb.register.address import Address, read_postcode
from kb.register.alarms import ALARMS, Alarm
from kb.register.appliances import FUELS, KINDS, Appliance
from kb.register.asked import Asked, understand
from kb.register.changes import changed
from kb.register.check import mistakes_in
from kb.register.folding import folded
from kb.register.keeping import KEPT_BY_LAW, Kept, kept_until
from kb.register.mistakes import Mistake
from kb.register.people import NEEDS, ROLES, Need, Person, read_phone, review_due
from kb.register.record import Record, home_in

__all__ = [
    "ALARMS",
    "FUELS",
    "KEPT_BY_LAW",
    "KINDS",
    "NEEDS",
    "ROLES",
    "Address",
    "Alarm",
    "Appliance",
    "Asked",
    "Kept",
    "Mistake",
    "Need",
    "Person",
    "Record",
    "changed",
    "folded",
    "home_in",
    "kept_until",
    "mistakes_in",
    "read_phone",
    "read_postcode",
    "review_due",
    "understand",
]
