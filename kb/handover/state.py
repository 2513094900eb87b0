"""What does a record say now, field by field?"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date

from kb.handover.field import Field, Kind, Section
from kb.handover.form import Form
from kb.handover.typed import Value, read
from kb.handover.worked import FROM, worked_out


@dataclass(frozen=True, slots=True)
class State:
    """The values of a record: as they were typed, or as they follow from others where nothing was typed.

    `texts` is what was typed, answers to questions included, and `worked` what follows, by field; `today` is the day
    it is held against.
    """

    form: Form
    texts: Mapping[str, str]
    worked: Mapping[str, str]
    values: Mapping[str, Value]
    today: date

    @property
    def chosen(self) -> Mapping[str, str]:
        """Every choice made so far, by field."""
        return {id: meaning for id in self.values if isinstance(meaning := self.meaning(id), str)}

    def meaning(self, id: str) -> object:
        """What a field means, None where nothing usable stands in it."""
        value = self.values.get(id)
        return value.meaning if value else None

    def text(self, id: str) -> str:
        """What a field shows."""
        return self.texts.get(id, "") or self.worked.get(id, "")

    def asked(self, section: Section) -> Iterator[Field]:
        """The fields of a section that are asked of such a home."""
        chosen = self.chosen
        return (field for field in section.fields if field.is_asked(chosen))

    def all_asked(self) -> Iterator[Field]:
        """Every field that is asked of such a home."""
        chosen = self.chosen
        return (field for field in self.form.by_id.values() if field.is_asked(chosen))

    def waits(self, id: str) -> bool:
        """Whether a field will follow from others that are still open, so that nobody need think of it yet."""
        return any(self.meaning(source) is None for source in FROM.get(id, ()))

    def figures(self) -> Mapping[str, float]:
        """Every figure that is asked for and can be read, possible or not."""
        asked = (field.id for field in self.all_asked() if field.kind is Kind.FIGURE)
        return {id: meaning for id in asked if isinstance(meaning := self.meaning(id), float)}


def state_of(form: Form, texts: Mapping[str, str], today: date) -> State:
    """The state of what was typed; what cannot be read is in it as it was typed, with what is wrong."""
    typed = {id: value for id, text in texts.items() if id in form.by_id and (value := read(form.by_id[id], text))}
    worked = {id: text for id, text in worked_out(typed, form.makes, today).items() if id not in typed}
    follow = {id: value for id, text in worked.items() if (value := read(form.by_id[id], text))}
    return State(form, {id: text for id, text in texts.items() if text.strip()}, worked, {**follow, **typed}, today)
