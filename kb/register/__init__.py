"""Who lives in a home, where it is and what stands in it: what the firm's own people see, and never a household's page.

`kb.home.Home` is what a key opens and holds nothing about people; a `Record` is all that is known.
"""

from kb.register.address import Address, read_postcode
from kb.register.alarms import ALARMS, Alarm
from kb.register.appliances import FUELS, KINDS, Appliance
from kb.register.asked import Asked, understand
from kb.register.building import Built, build
from kb.register.cells import Cells, read_day
from kb.register.changes import changed
from kb.register.check import mistakes_in
from kb.register.chosen import CARDS, NO_RANGE, Chosen
from kb.register.due import DUE, NEVER_OVERDUE, Due, Month, month_of, read_month
from kb.register.folding import folded
from kb.register.keeping import KEPT_BY_LAW, Kept, kept_until
from kb.register.mistakes import MEANWHILE, Mistake
from kb.register.people import NEEDS, ROLES, Need, Person, read_phone, review_due
from kb.register.record import Record, home_in
from kb.register.written import fields_of_person, version_of, written

__all__ = [
    "ALARMS",
    "CARDS",
    "DUE",
    "FUELS",
    "KEPT_BY_LAW",
    "KINDS",
    "MEANWHILE",
    "NEEDS",
    "NEVER_OVERDUE",
    "NO_RANGE",
    "ROLES",
    "Address",
    "Alarm",
    "Appliance",
    "Asked",
    "Built",
    "Cells",
    "Chosen",
    "Due",
    "Kept",
    "Mistake",
    "Month",
    "Need",
    "Person",
    "Record",
    "build",
    "changed",
    "fields_of_person",
    "folded",
    "home_in",
    "kept_until",
    "mistakes_in",
    "month_of",
    "read_day",
    "read_month",
    "read_phone",
    "read_postcode",
    "review_due",
    "understand",
    "version_of",
    "written",
]
