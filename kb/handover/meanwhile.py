"""What did somebody change in the register while a handover record was being written?

A record remembers what the register said when it began, and what it said when somebody last decided between the two;
so a change of the office's and one of the engineer's are told apart, and neither is lost without a word.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from kb.handover.field import Field
from kb.handover.record import Entry, Record
from kb.handover.said import Level, Said
from kb.handover.state import State
from kb.handover.typed import read
from kb.handover.words import in_words

CHECK: Final = "register"
"""What the check is called that asks about such a change."""

KNOWN: Final = "known-"
"""Before the field's name: the id of an entry that was filled in from the register."""

SEEN: Final = "seen-"
"""Before the field's name: what the register said beside the record when somebody saw both."""


@dataclass(frozen=True, slots=True)
class Difference:
    """A field that the register says otherwise than it did, and otherwise than the record."""

    field: Field
    register: str
    record: str

    @property
    def said(self) -> Said:
        """The question that it is."""
        there, here = (in_words(self.field, text) for text in (self.register, self.record))
        office = f"it now says “{there}”" if there else "it no longer says anything"
        mine = f"your record says “{here}”" if here else "your record says nothing yet"
        about = f"The register was changed while this was written. {self.field.words}: {office}, {mine}."
        return Said(CHECK, (self.field.id,), Level.QUESTION, about)


def bases(record: Record) -> Mapping[str, str]:
    """What the register last said as far as this record knows, by field; the later word counts."""
    return dict(_bases(record.entries))


def differences(state: State, told: Mapping[str, str], base: Mapping[str, str]) -> Iterator[Difference]:
    """Every field that is asked and set, and of which the register says something new that the record does not say."""
    for field in state.all_asked():
        now, mine = told.get(field.id, ""), state.text(field.id)
        if field.sets and not (_same(field, now, base.get(field.id, "")) or _same(field, now, mine)):
            yield Difference(field, now, mine)


def _bases(entries: tuple[Entry, ...]) -> Iterator[tuple[str, str]]:
    for entry in entries:
        if entry.field.startswith(SEEN):
            yield entry.field.removeprefix(SEEN), entry.text
        elif entry.id == KNOWN + entry.field:
            yield entry.field, entry.text


def _same(field: Field, one: str, other: str) -> bool:
    """Whether two texts mean the same in a field, whatever their spaces, case and noughts."""
    first, second = (read(field, text) for text in (one, other))
    meanings = [value.meaning if value else None for value in (first, second)]
    if None in meanings or any(isinstance(each, str) for each in meanings):
        return one.strip().casefold() == other.strip().casefold()
    return meanings[0] == meanings[1]
