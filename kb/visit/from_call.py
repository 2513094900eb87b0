"""What does a call tell the engineer who goes?"""

from collections.abc import Iterator, Mapping
from datetime import tzinfo
from typing import Final

from kb.article import Article
from kb.desk.call import Call
from kb.desk.causing import given
from kb.desk.events import FLAGS
from kb.desk.reading import Reading
from kb.desk.script import Place
from kb.desk.words import SAID_WORDS
from kb.guide import By
from kb.library import Library
from kb.triage.brief import Answer, Told

_CALLER: Final = {
    "name": "Who rang",
    "phone": "Call back",
    "address": "Address, as said",
    "access": "Access, parking, pets",
    "authority": "May order",
}


def article_of(library: Library, reading: Reading) -> Article | None:
    """The fault that a call is about: the danger it came to where that is a fault of its own.

    Else it is the last one its answers led to that has causes, or the one it began with.
    """
    place, danger = reading.place, reading.end.emergency if reading.end else None
    found = [article for article in library.faults() if danger and article.header.category == danger]
    if found:
        return found[0]
    if place is None:
        return None
    walked = [place.branch.article, *(taken.step.article for taken in place.standing.taken)]
    with_causes = [library.articles[id] for id in walked if id in library.articles and library.articles[id].causes]
    return with_causes[-1] if with_causes else library.articles.get(place.branch.article)


def told(reading: Reading, zone: tzinfo) -> Told:
    """All that a call brought out, for the brief."""
    place, call = reading.place, reading.call
    return Told(
        pace=reading.pace,
        end=reading.end.title if reading.end else "",
        given=given(place) if place else {},
        answers=tuple(_answers(place)) if place else (),
        danger=tuple(
            Answer(asked.step.title, SAID_WORDS[asked.said], f"{asked.at.astimezone(zone):%H:%M:%S}")
            for asked in reading.agenda.answered
        ),
        tried=_tried(place) if place else {},
        words=tuple(quoted.words for quoted in call.words),
        noted=tuple(quoted.words for quoted in call.notes),
        shown=call.told.get("code", ""),
        access=tuple(_access(call)),
        promised=tuple(f"{what} (by {by})" if by else what for what, by in call.promises),
    )


def _answers(place: Place) -> Iterator[Answer]:
    for taken in place.standing.taken:
        if taken.step.article != "danger" and taken.by is not By.NONE_OF_THESE:
            reading = f" ({taken.reading:g} bar)" if taken.reading is not None else ""
            yield Answer(taken.step.title, taken.answer.text + reading)
    if place.cannot is not None:
        yield Answer(place.cannot.title, "They could not tell")


def _tried(place: Place) -> Mapping[str, tuple[int, int]]:
    actions = {**place.said_before, **place.tries}
    return {action: (place.said_before.get(action, 0), place.tries.get(action, 0)) for action in actions}


def _access(call: Call) -> Iterator[Answer]:
    for name, said in _CALLER.items():
        if call.caller.get(name):
            yield Answer(said, call.caller[name])
    for flag in sorted(call.flags & FLAGS.keys()):
        yield Answer("Whoever rang", FLAGS[flag])
