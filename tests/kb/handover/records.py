"""Small handover records for tests."""

from datetime import UTC, date, datetime
from typing import Final

from kb.appliance import Make
from kb.handover.form import Form, form_for
from kb.handover.record import Addition, Entry, Record, Signature
from kb.handover.state import State, state_of

TODAY: Final = date(2026, 11, 25)
NOON: Final = datetime(2026, 11, 25, 12, tzinfo=UTC)
KEY: Final = "9EJFP-R992N-EKTAM"
FORM: Final[Form] = form_for(
    {"marlpit-c": "Marlpit C"}, {"setting-bypass": "Bypass"}, {"marlpit-c": Make.COMBI, "sedgebrook": Make.SYSTEM}
)

COMBI: Final = {
    "range": "marlpit-c", "appliance": "Marlpit C 28", "serial": "0001", "fuel": "natural-gas", "input-net-kw": "25",
    "dhw-kw": "24",
    "cold-bar": "1.2", "static-m": "5", "charge-bar": "0.8", "vessel-l": "10", "filling-loop": "keyed",
    "filling-loop-place": "white key under the boiler", "loop-closed": "yes", "flush": "machine", "inhibitor": "1 l",
    "meter": "credit", "meter-kind": "metric", "standing-mbar": "23", "at-meter-mbar": "21",
    "at-appliance-mbar": "20.4", "gas-m3": "0.0425", "gas-s": "60", "tight": "yes",
    "gas-valve-place": "by the front door", "co-high-ppm": "62",
    "co2-high": "9.1", "co-low-ppm": "8", "co2-low": "8.7", "intake-o2": "20.8",
    "flow-c": "60", "return-c": "42", "pump": "2", "bypass": "inside",
    "dhw-lpm": "9.8", "cold-in-c": "10", "hot-out-c": "45", "stop-tap-place": "under the sink",
    "flue": "room-sealed", "flue-kind": "horizontal", "flue-straight-m": "1.2", "flue-bends-90": "0",
    "flue-max-m": "10", "flue-seen": "yes", "clearances": "yes",
    "condensate": "inside", "condensate-end": "kitchen waste", "trap": "yes",
    "polarity": "yes", "earth": "yes", "fuse-a": "3", "isolation": "yes", "switch-place": "left of the boiler",
    "controls": "wireless", "interlock": "yes", "did": "gauge top-up reset",
    "co-alarm": "yes", "co-alarm-place": "beside the boiler", "left": "sheet card", "outcome": "fit",
}  # fmt: skip
"""A combi on natural gas with everything filled in that must be, and nothing wrong."""


def state(texts: dict[str, str] = COMBI, **changed: str) -> State:
    """The state of a record; a change is written with underscores, and an empty one takes a field away."""
    changes = {name.replace("_", "-"): text for name, text in changed.items()}
    return state_of(FORM, {**texts, **changes}, TODAY)


def record(texts: dict[str, str] = COMBI, **more: object) -> Record:
    """An unsigned record in which each field was written once."""
    entries = tuple(
        Entry(f"entry-{number:03}", number, field, text, "Robin", NOON)
        for number, (field, text) in enumerate(texts.items(), 1)
    )
    return Record("r1", KEY, NOON, "Robin", entries)


SIGNATURE: Final = Signature("R. Thorne", "Robin", NOON)
ADDITION: Final = Addition("addition-1", "The cap was found.", "Robin", NOON)
