"""From a visit to what its page on site shows."""

from collections.abc import Iterator, Mapping
from datetime import date
from json import dumps

from kb.article import Answer, Audience, End, Step
from kb.desk.danger import clear_answer, questions, yes_end
from kb.guide import By
from kb.handover.field import Field
from kb.library import Library
from kb.prose import Target
from kb.visit.changing import known_now
from kb.visit.checks import Stop, stops
from kb.visit.closing import due, lacking
from kb.visit.job import ANSWER, DANGER, field_of
from kb.visit.readings import PLACES, UNITS, readings
from kb.visit.unsafe import PROCEDURE, REPORT_DAYS
from kb.visit.written import TIMES, Written
from kb.walk import Standing
from server.diary.leaving import Leaving
from server.engineer.book import ROOM
from server.engineer.jobs import Seen
from server.engineer.pages import FieldShown, OptionShown
from server.engineer.reading import PACE_WORDS
from server.engineer.visit_pages import AnswerShown, LackingShown, SitePage, StopShown, TakenShown, WalkShown
from server.site import Site
from server.staff.pages import StaffFrame
from server.web.frame import phone_link
from server.web.static import scripts


def site_page(
    frame: StaffFrame, site: Site, seen: Seen, alert: str, asked: bool, leaving: Leaving | None, stood: int
) -> SitePage:
    """The page for work on site; `asked` says that somebody has tried to close the job."""
    library, written, report = site.library, seen.written, due(seen.written)
    close, changes, unsafe = ([_field(seen, field) for field in section.fields] for section in written.form.sections)
    return SitePage(
        frame=frame,
        scripts=scripts("entries.js", "visit.js", "offline.js"),
        address=seen.address,
        title=seen.title,
        clock=seen.job.clock,
        danger=tuple(_danger(library, seen)),
        danger_open=_in_danger(library, seen),
        walks=tuple(_walks(library, seen)),
        readings=tuple(readings(seen.job.texts)),
        units=UNITS,
        places=PLACES,
        close=tuple(close),
        changes=tuple(changes) if seen.home else (),
        unsafe=tuple(unsafe),
        unsafe_open=written.words("unsafe") == "yes",
        procedure=PROCEDURE,
        gas=phone_link(site.firm, site.number("gas")),
        arrived=bool(written.words("arrived")),
        alert=alert,
        leaving=leaving,
        stood=stood,
        lacking=lacking_shown(seen) if asked else (),
        report=day(report) if report else "",
        report_days=REPORT_DAYS,
        walk_end=written.ended,
        answered=dumps(_answers(seen.job.texts)),
        conflicts=dumps([[each.field, dict(each.when), each.words] for each in written.form.conflicts]),
        base=ROOM,
    )


def lacking_shown(seen: Seen) -> tuple[LackingShown, ...]:
    """What is in the way of closing."""
    return tuple(LackingShown(each.field, each.words, each.why) for each in lacking(seen.written))


def causes_shown(seen: Seen) -> list[tuple[str, str]]:
    """Each cause's option and its words with its chance, in the order of what was found so far."""
    chances = {each.cause.name: each.chance for each in seen.chances}
    options = seen.written.form.by_id["cause"].options
    return [(id, f"{words} · {chances[words]:.0%}" if words in chances else words) for id, words in options.items()]


def day(on: date) -> str:
    """A day in words."""
    return f"{on:%-d %B %Y}"


def _answers(texts: Mapping[str, str]) -> Mapping[str, str]:
    return {field: text for field, text in texts.items() if field.startswith(ANSWER) or field == DANGER}


def _danger(library: Library, seen: Seen) -> Iterator[StopShown]:
    """The danger questions as one stop, then the ends that a yes leads to."""
    asked = questions(library)
    ends = {step.target: yes_end(library, step) for step in asked}
    answers = [
        AnswerShown(field_of(step.target), yes.text, step.title, _place(end.target))
        for step in asked
        if (end := ends[step.target]) and (yes := _yes(step))
    ]
    at = {_place(walk.at.target) for walk in seen.walks}
    yield StopShown("danger", "Before anything else", (), tuple(answers), "", _in_danger(library, seen))
    for end in {end.target: end for end in ends.values() if end}.values():
        yield StopShown(_place(end.target), end.title, end.body, (), PACE_WORDS[end.pace], _place(end.target) in at)


def _in_danger(library: Library, seen: Seen) -> bool:
    """Whether the danger questions wait for an answer."""
    danger = library.danger.id if library.danger else ""
    return any(walk.at.article == danger for walk in seen.walks)


def _yes(step: Step) -> Answer | None:
    clear = clear_answer(step)
    return next((answer for answer in step.answers if answer is not clear), None)


def _walks(library: Library, seen: Seen) -> Iterator[WalkShown]:
    last = len(seen.walks) - 1
    for number, (start, walk) in enumerate(zip(seen.starts, seen.walks, strict=True)):
        found = stops(library, start, seen.known)
        taken = tuple(_taken(walk))
        yield WalkShown(
            id=start.article,
            title=library.articles[start.article].title,
            stops=tuple(_stops(found, walk)),
            taken=taken,
            ways=dumps([[_place(stop.place.target), isinstance(stop.place, End), dict(stop.onward)] for stop in found]),
            open=number == last or (bool(taken) and isinstance(walk.at, Step)),
        )


def _stops(found: tuple[Stop, ...], walk: Standing) -> Iterator[StopShown]:
    """Every place once, however many stops it makes."""
    places = {stop.place.target: stop.place for stop in found}
    for place in places.values():
        answers = place.answers if isinstance(place, Step) else ()
        yield StopShown(
            place=_place(place.target),
            title=place.title,
            body=place.body,
            answers=tuple(AnswerShown(field_of(place.target), each.text, each.text) for each in answers),
            pace=PACE_WORDS[place.pace] if isinstance(place, End) else "",
            open=place.target == walk.at.target,
        )


def _taken(walk: Standing) -> Iterator[TakenShown]:
    for taken in walk.taken:
        if taken.by is By.PERSON and taken.step.audience is Audience.ENGINEER:
            yield TakenShown(taken.step.title, taken.answer.text, field_of(taken.step.target))


def _field(seen: Seen, field: Field) -> FieldShown:
    written = seen.written
    known = known_now(written, seen.home) if field.sets and seen.home else {}
    text = written.texts.get(field.id, known.get(field.id, ""))
    value = written.values.get(field.id)
    chosen = text.split(" ")
    named = dict(causes_shown(seen)) if field.id == "cause" else field.options
    return FieldShown(
        id=field.id,
        kind="time" if field.id in TIMES else field.kind.value,
        words=field.words,
        unit=field.unit,
        help=field.help,
        options=tuple(OptionShown(id, words, id in chosen) for id, words in named.items()),
        text=text,
        worked=False,
        problem=str(value.problem) if value and value.problem else "",
        hidden=not _asked(written, field),
        when=dumps(dict(field.when)) if field.when else "",
        aside=field.aside,
        most=field.most,
        keyboard="decimal",
        needed=field.needed,
    )


def _asked(written: Written, field: Field) -> bool:
    return field.is_asked(written.chosen)


def _place(target: Target) -> str:
    """The name of a stop in the page: the field of its answer without what that begins with."""
    return field_of(target).removeprefix(ANSWER)
