"""Which fields did somebody change in a section that was sent as a form?"""

from collections.abc import Iterator, Mapping
from datetime import datetime
from secrets import token_urlsafe

from kb.handover.field import Field, Kind, Section
from kb.handover.record import LONGEST_TEXT, Entry, texts
from kb.handover.state import state_of
from server.engineer.book import Book, Opened
from server.staff import Visit


def changed_entries(book: Book, opened: Opened, section: Section, visit: Visit, now: datetime) -> tuple[Entry, ...]:
    """An entry for each field that somebody changed on the page they were shown.

    The page says up to which sequence it showed the record, so a field that was left alone undoes nothing that was
    written elsewhere since; and a form that is sent twice writes once.
    """
    record = opened.record
    clock = _number(visit.form.get("clock", ""))
    shown = state_of(book.form, texts(entry for entry in record.entries if entry.sequence <= clock), book.today())
    sent = {field.id: text for field in section.fields if (text := sent_text(field, visit.form)) is not None}
    changed = {id: text for id, text in sent.items() if text not in (shown.text(id), opened.state.text(id))}
    return tuple(_entries(changed, visit.who.name, record.clock, now))


def _entries(changed: Mapping[str, str], by: str, clock: int, now: datetime) -> Iterator[Entry]:
    for sequence, (field, text) in enumerate(changed.items(), clock + 1):
        yield Entry(token_urlsafe(12), sequence, field, text, by, now)


def sent_text(field: Field, form: Mapping[str, str]) -> str | None:
    """The text of a field in a form, None where the form does not have it."""
    if field.kind is Kind.TICKS:
        ticked = [id for id in field.options if f"{field.id}.{id}" in form]
        return " ".join(ticked) if field.id in form else None
    text = form.get(field.id)
    return None if text is None else keepable(text)


def keepable(text: str) -> str:
    """A text without what some kind of database would refuse."""
    plain = "".join(sign for sign in text if sign != "\0" and not "\ud800" <= sign <= "\udfff")
    return plain[:LONGEST_TEXT].replace("\r\n", "\n")


def _number(typed: str) -> int:
    return int(typed) if typed.isascii() and typed.isdigit() and len(typed) < 17 else 0
