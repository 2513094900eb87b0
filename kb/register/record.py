"""All that a firm knows about one home."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from kb.facts import NOTHING_KNOWN, Known
from kb.home import Home
from kb.register.address import Address
from kb.register.alarms import Alarm
from kb.register.appliances import Appliance
from kb.register.people import Person


@dataclass(frozen=True, slots=True)
class Record:
    """A home as the firm's own people know it.

    The first appliance is the one the card is for.
    Tenure is a fact like any other, `known.facts["tenure"]`; a landlord is one of the people.
    """

    key: str
    appliances: tuple[Appliance, ...]
    known: Known = NOTHING_KNOWN
    places: Mapping[str, str] = field(default_factory=dict)
    address: Address | None = None
    people: tuple[Person, ...] = ()
    alarms: tuple[Alarm, ...] = ()

    def __hash__(self) -> int:
        """By the key, since what is known need not be hashable."""
        return hash(self.key)


def home_in(record: Record) -> Home:
    """What the key opens: the record without its people, its address and everything else of theirs."""
    first = record.appliances[0]
    return Home(record.key, first.range, first.plate, record.known, record.places, first.fitted, first.next_service)
