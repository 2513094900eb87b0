"""What stands in the way of closing a job, all at once, and how is it closed?"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from kb.handover.field import Field
from kb.visit.changing import IN_ORDER, rising
from kb.visit.job import Closed
from kb.visit.unsafe import report_by
from kb.visit.written import Written, minutes


@dataclass(frozen=True, slots=True)
class Lacking:
    """A field that must be filled in, or otherwise, before a job can be closed; `why` is empty for one left empty."""

    section: str
    field: str
    words: str
    why: str = ""


def lacking(written: Written) -> tuple[Lacking, ...]:
    """Everything in the way, in the order of the form."""
    return tuple(_lacking(written))


def close(written: Written, at: datetime, by: str, predicted: Sequence[str] = ()) -> Closed:
    """How a job is closed that nothing stands in the way of."""
    cause = written.words("cause")
    return Closed(
        at=at,
        by=by,
        cause=written.form.causes[cause],
        outcome=written.words("outcome"),
        phone=written.words("phone"),
        words=written.words("cause-words"),
        minutes=minutes(written),
        predicted=tuple(predicted),
        taken=written.ticked("parts-taken"),
        used=(*written.ticked("parts-used"), *filter(None, [written.words("part-other")])),
        unsafe=written.words("unsafe-class"),
        report_by=due(written),
        travel=_travel(written),
        charge=written.words("charge"),
        card=written.words("card"),
        card_words=written.words("card-words"),
    )


def due(written: Written) -> date | None:
    """The day by which what was found must be reported; None where it need not be, or that is not yet said."""
    found = written.meaning("unsafe-found")
    return report_by(found) if written.words("riddor") == "yes" and isinstance(found, date) else None


def _lacking(written: Written) -> Iterator[Lacking]:
    chosen = written.chosen
    told = dict(_otherwise(written))
    for section in written.form.sections:
        for field in written.asked(section):
            value = written.values.get(field.id)
            if value is None:
                if field.needed:
                    yield _lack(field, "")
            elif value.problem is not None:
                yield _lack(field, str(value.problem))
            if field.id in told:
                yield _lack(field, told[field.id])
            for each in written.form.conflicts:
                applies = all(chosen.get(other, "") in values for other, values in each.when.items())
                if each.field == field.id and applies:
                    yield _lack(field, each.words)


def _otherwise(written: Written) -> Iterator[tuple[str, str]]:
    """What no choice alone tells: marks out of order, a day before the part is there."""
    if not rising(written, written.marks):
        yield "mark-low", IN_ORDER
    ready, day = written.meaning("fetch-by"), written.meaning("return-day")
    if isinstance(ready, date) and isinstance(day, date) and day < ready:
        yield "return-day", "The part is not there by then."


def _travel(written: Written) -> int | None:
    minutes = written.meaning("travel")
    return round(minutes) if isinstance(minutes, float) else None


def _lack(field: Field, why: str) -> Lacking:
    return Lacking(field.section, field.id, field.words, why)
