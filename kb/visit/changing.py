"""What of a home did an engineer find otherwise, or change, so that its card must say something else?"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from kb.facts import GaugeMarks
from kb.handover.known import told_by_home
from kb.handover.learnt import known_after, named
from kb.home import Home
from kb.register import Record
from kb.visit.written import Written

IN_ORDER: Final = "The marks must rise: low, then where to fill to, then high."


def known_now(written: Written, home: Home) -> Mapping[str, str]:
    """What stands in each field of the changes before anybody changes it."""
    return told_by_home(written.form.by_id.values(), home)


def learnt(written: Written, home: Home) -> Mapping[str, object]:
    """What is otherwise than the home is known to be, by what it says of it."""
    before = known_now(written, home)
    found: dict[str, object] = {}
    for field in written.form.by_id.values():
        meaning = written.meaning(field.id)
        if field.sets and meaning is not None and written.texts.get(field.id, "") != before.get(field.id, ""):
            found[field.sets] = meaning
    return found


def rising(written: Written, before: GaugeMarks) -> bool:
    """Whether the gauge's marks are in order once the changes are made."""
    typed = {name: written.meaning(f"mark-{name}") for name in ("low", "aim", "high")}
    low, aim, high = (figure if isinstance(figure, float) else before.bar(name) for name, figure in typed.items())
    return low < aim < high


def with_learnt(record: Record, learnt: Mapping[str, object]) -> Record:
    """The home as the changes leave it; what they do not speak of stays as it is."""
    places = {**record.places, **named(learnt, "place")}
    return replace(record, known=known_after(learnt, record.known), places=places)
