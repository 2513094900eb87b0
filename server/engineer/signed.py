"""From a record to the page where it is signed, and the page of a signed one."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import tzinfo
from secrets import token_urlsafe

from kb.days import full_moment
from kb.handover import seal
from kb.handover.field import Field
from kb.handover.meanwhile import CHECK as REGISTER
from kb.handover.meanwhile import SEEN, Difference
from kb.handover.ready import Readiness, is_unsafe
from kb.handover.said import Level
from kb.handover.words import in_words
from server.engineer.book import Opened
from server.engineer.pages import Added, Apart, Line, Link, Part, SignedPage, SignPage
from server.engineer.showing import SCRIPTS, one_said, said_shown
from server.staff.pages import StaffFrame
from server.web.static import scripts


def sign_page(frame: StaffFrame, opened: Opened, found: Readiness, name: str, seen: str, alert: str) -> SignPage:
    """What is in the way of signing, and the place for the name."""
    state = opened.state
    questions = (each for each in opened.said if each.level is Level.QUESTION and each.check != REGISTER)
    return SignPage(
        frame=frame,
        scripts=scripts(*SCRIPTS),
        address=opened.address,
        title=opened.title,
        clock=opened.record.clock,
        alert=alert,
        lacking=tuple(_lacking(opened, found)),
        dangers=tuple(one_said(state, each, opened.address) for each in found.dangers),
        apart=() if is_unsafe(state) else tuple(map(_apart, opened.apart)),
        questions=() if is_unsafe(state) else tuple(one_said(state, each, opened.address) for each in questions),
        outcome=in_words(state.form.by_id["outcome"], state.text("outcome")),
        outcome_address=f"{opened.address}/outcome",
        unsafe=is_unsafe(state),
        name=name,
        seen=seen,
    )


def _apart(each: Difference) -> Apart:
    there, here = (in_words(each.field, text) for text in (each.register, each.record))
    return Apart(each.field.id, each.field.words, each.register, there, here)


def _lacking(opened: Opened, found: Readiness) -> Iterator[tuple[str, tuple[Link, ...]]]:
    """What is missing, by section."""
    for section in opened.state.form.sections:
        those = [each for each in found.lacking if each.section == section.id]
        if those:
            address = f"{opened.address}/{section.id}"
            yield section.title, tuple(Link(each.words, f"{address}#f-{each.field}", each.why) for each in those)


def signed_page(frame: StaffFrame, opened: Opened, has_page: bool, clock: tzinfo) -> SignedPage:
    """A signed record with its fingerprint, and what leads on from it."""
    record, signature = opened.record, opened.record.signature
    assert signature is not None
    unsafe = is_unsafe(opened.state)
    return SignedPage(
        frame=frame,
        scripts=scripts(*SCRIPTS),
        address=opened.address,
        title=opened.title,
        key=record.key,
        name=signature.name,
        by=signature.by,
        at=full_moment(signature.at, clock),
        fingerprint=seal.last(record),
        unaltered=seal.is_unaltered(record),
        unsafe=unsafe,
        card="" if unsafe or not has_page else f"{opened.address}/card.pdf",
        home=f"/h/{record.key}" if has_page else "",
        parts=tuple(_parts(opened)),
        added=tuple(Added(each.words, each.by, full_moment(each.at, clock)) for each in record.additions),
        token=token_urlsafe(12),
    )


def _parts(opened: Opened) -> Iterator[Part]:
    for section in opened.state.form.sections:
        fields = (field for field in opened.state.asked(section) if opened.state.text(field.id))
        lines = tuple(Line(field.words, _signed_words(opened, field)) for field in fields)
        said = tuple(replace(each, next="") for each in said_shown(opened, section.id))
        if lines or said:
            yield Part(section.title, lines, said)


def _signed_words(opened: Opened, field: Field) -> str:
    """What stands in a field, with what the register said otherwise when it was decided."""
    text = in_words(field, opened.state.text(field.id))
    beside = in_words(field, opened.state.texts.get(SEEN + field.id, ""))
    return f"{text} (the register said: {beside})" if beside and beside != text else text
