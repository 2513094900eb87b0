"""What does the closing form of a job say by now, field by field?"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Final

from kb.facts import NOTHING_KNOWN, GaugeMarks
from kb.handover.field import Field, Section
from kb.handover.typed import Problem, Value, read
from kb.visit.form import Form

WALK_END: Final = "walk-end"
"""The name under which a conflict asks where the checks ended."""

PAST: Final = ("unsafe-found",)
AHEAD: Final = ("fetch-by", "return-day")
"""The days that must have been, and those that must be still to come."""

TIMES: Final = ("arrived", "left")
"""The fields that hold a time of day."""

_TIME: Final = re.compile(r"([01]\d|2[0-3]):([0-5]\d)")


@dataclass(frozen=True, slots=True)
class Written:
    """The values of a job's form; `ended` is the anchor of the end that the checks came to, `marks` are the home's."""

    form: Form
    texts: Mapping[str, str]
    values: Mapping[str, Value]
    ended: str = ""
    marks: GaugeMarks = NOTHING_KNOWN.marks

    @property
    def chosen(self) -> Mapping[str, str]:
        """Every choice made so far, by field, and where the checks ended."""
        choices = {id: value.meaning for id, value in self.values.items() if isinstance(value.meaning, str)}
        return {**choices, WALK_END: self.ended}

    def asked(self, section: Section) -> Iterator[Field]:
        """The fields of a section that are asked after what was chosen."""
        chosen = self.chosen
        return (field for field in section.fields if field.is_asked(chosen))

    def meaning(self, id: str) -> object:
        """What a field means, None where it is not asked or nothing usable stands in it."""
        field, value = self.form.by_id.get(id), self.values.get(id)
        return value.meaning if field and value and field.is_asked(self.chosen) else None

    def words(self, id: str) -> str:
        """What a field means, in words; nothing where it means nothing."""
        meaning = self.meaning(id)
        return meaning if isinstance(meaning, str) else ""

    def ticked(self, id: str) -> tuple[str, ...]:
        """The words of what is ticked."""
        meaning, field = self.meaning(id), self.form.by_id.get(id)
        return tuple(field.options[each] for each in meaning) if field and isinstance(meaning, tuple) else ()


def written(
    form: Form,
    texts: Mapping[str, str],
    today: date,
    ended: str = "",
    marks: GaugeMarks = NOTHING_KNOWN.marks,
) -> Written:
    """Read what was typed; what cannot be read is in it as it was typed, with what is wrong."""
    values: dict[str, Value] = {}
    for id, text in texts.items():
        value = read(form.by_id[id], text) if id in form.by_id else None
        if value is not None:
            values[id] = _narrowed(id, value, today)
    return Written(form, {id: text for id, text in texts.items() if text.strip()}, values, ended, marks)


def minutes(written: Written) -> int | None:
    """From arriving to leaving, past midnight too; None while one of them is not known."""
    arrived, left = (_minutes(written.words(id)) for id in TIMES)
    return None if arrived is None or left is None else (left - arrived) % (24 * 60)


def _minutes(time: str) -> int | None:
    found = _TIME.fullmatch(time)
    return 60 * int(found[1]) + int(found[2]) if found else None


def _narrowed(id: str, value: Value, today: date) -> Value:
    if id in TIMES and isinstance(value.meaning, str) and not _TIME.fullmatch(value.meaning):
        return Value(value.text, None, Problem("a time of day", f"“{value.text[:20]}”", "Write it like 14:05."))
    if isinstance(value.meaning, date) and value.meaning < today and id in AHEAD:
        return Value(value.text, None, Problem("a day to come", f"“{value.text}”", "Write the day it will be."))
    if isinstance(value.meaning, date) and value.meaning > today and id in PAST:
        return Value(value.text, None, Problem("a day that has been", f"“{value.text}”", "Write the day it was found."))
    return value
