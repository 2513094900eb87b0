"""From a record to what its page shows."""

from collections.abc import Iterator
from json import dumps

from kb.handover.field import Field, Kind, Section
from kb.handover.meanwhile import CHECK as REGISTER
from kb.handover.meanwhile import KNOWN
from kb.handover.said import Level, Said
from kb.handover.state import State
from server.engineer.book import ROOM, Opened
from server.engineer.pages import FieldShown, Link, OptionShown, RecordPage, SaidShown, SectionShown
from server.staff.pages import StaffFrame
from server.web.static import scripts

SCRIPTS = ("entries.js", "handover.js")
EXPLAIN = "Correct it above, or explain it when you sign."
CHOOSE = "Choose which is right when you sign."


def record_page(frame: StaffFrame, opened: Opened, current: str) -> RecordPage:
    """The page of a record with one section open."""
    return RecordPage(
        frame=frame,
        scripts=scripts(*SCRIPTS),
        address=opened.address,
        title=opened.title,
        key=opened.record.key,
        clock=opened.record.clock,
        sections=tuple(sections_shown(opened, current)),
    )


def sections_shown(opened: Opened, current: str) -> Iterator[SectionShown]:
    """Every section, each with the way on to the next; the last leads to the signing."""
    sections = opened.state.form.sections
    for place, section in enumerate(sections):
        after = sections[place + 1] if place + 1 < len(sections) else None
        onward = Link(f"Go on: {after.title}", f"{opened.address}/{after.id}") if after else None
        filled, of = done(opened.state, section)
        yield SectionShown(
            id=section.id,
            title=section.title,
            place=f"{place + 1} of {len(sections)}",
            address=f"{opened.address}/{section.id}",
            fields=tuple(_field(opened, field) for field in section.fields),
            said=said_shown(opened, section.id),
            filled=filled,
            of=of,
            open=section.id == current,
            onward=onward or Link("Go on: sign", f"{opened.address}/sign"),
        )


def done(state: State, section: Section) -> tuple[int, int]:
    """How many of the fields that a section must have are filled in, and how many there are."""
    known = {field.id: state.meaning(field.id) is not None for field in state.asked(section) if field.needed}
    return sum(known.values()), sum(there or not state.waits(id) for id, there in known.items())


def said_shown(opened: Opened, section: str) -> tuple[SaidShown, ...]:
    """What is said in a section."""
    form = opened.state.form
    return tuple(one_said(opened.state, said) for said in opened.said if said.section(form) == section)


def one_said(state: State, said: Said, address: str = "") -> SaidShown:
    """One thing said, with what was answered to it; a record's address makes a way to the field it is about."""
    section = said.section(state.form)
    [title] = (each.title for each in state.form.sections if each.id == section)
    way = Link(f"Correct it: {title}", f"{address}/{section}#f-{said.fields[-1]}") if address else None
    if said.level is not Level.QUESTION:
        return SaidShown(said.level.value, said.text, said.working, way=way)
    answer = state.texts.get(said.answered_in, "")
    next = CHOOSE if said.check == REGISTER else EXPLAIN
    return SaidShown(said.level.value, said.text, said.working, answer, said.answered_in, next, way)


def _field(opened: Opened, field: Field) -> FieldShown:
    state = opened.state
    value = state.values.get(field.id)
    text = state.text(field.id)
    return FieldShown(
        id=field.id,
        kind=field.kind.value,
        words=field.words,
        unit=field.unit,
        help=field.help,
        options=tuple(_options(field, text)),
        text=text,
        worked=field.id in state.worked,
        problem=str(value.problem) if value and value.problem else "",
        hidden=not field.is_asked(state.chosen),
        when=dumps(dict(field.when)) if field.when else "",
        aside=field.aside,
        most=field.most,
        keyboard=_keyboard(field),
        known=_known(opened, field),
    )


def _known(opened: Opened, field: Field) -> bool:
    """Whether a field stands as it was filled in from the register."""
    last = next((entry for entry in reversed(opened.record.entries) if entry.field == field.id), None)
    return last is not None and last.id == KNOWN + field.id


def _options(field: Field, text: str) -> Iterator[OptionShown]:
    chosen = text.split(" ") if field.kind is Kind.TICKS else [text]
    articles = field.id == "settings-left"
    for id, words in field.options.items():
        yield OptionShown(id, words, id in chosen, f"{ROOM}/help/{id}" if articles else "")


def _keyboard(field: Field) -> str:
    """Which keys a phone shows; a figure that may lie below nought needs more than digits."""
    if field.kind is not Kind.FIGURE or field.span is None or field.span[0] < 0:
        return "text"
    return "decimal"
