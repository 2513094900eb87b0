"""A call that was booked, as the desk leaves it: for whatever begins with an engineer taking the visit."""

from datetime import UTC, datetime, timedelta
from typing import Final

from kb.article import Step
from kb.desk.call import read_call
from kb.desk.danger import clear_trail, questions
from kb.desk.events import Did, Event
from kb.desk.script import places
from kb.facts import NOTHING_KNOWN, Known
from kb.library import Library
from server.store import Store

BEGAN: Final = datetime(2026, 11, 25, 8, tzinfo=UTC)
WORDS: Final = "it clicks and clicks and then a red light"


def book(
    store: Store, library: Library, key: str, *answers: str, id: str = "call-1", article: str = "ignition-failure",
    known: Known = NOTHING_KNOWN, at: datetime = BEGAN,
) -> None:  # fmt: skip
    """Keep a call about a home in which these answers were given, by their words, and which was booked."""
    events: list[Event] = []

    def did(did: Did, **said: str) -> None:
        moment = at + timedelta(seconds=10 * len(events))
        named = {name.replace("_", "-"): words for name, words in said.items()}
        events.append(Event(f"e{len(events)}", moment, "Wren", did, named))

    for step in questions(library):
        did(Did.ASKED, step=step.anchor, answer="no")
    did(Did.CALLER, name="Sam Field", phone="01632 960111", access="dog in the yard")
    did(Did.HOME, key=key)
    did(Did.WORDS, words=WORDS)
    if article:
        did(Did.BEGAN, article=article, trail=clear_trail(library), how="desk")
    for place, words in enumerate(answers, len(questions(library))):
        step = places(library, read_call(events).branches, 0, known)[0].at
        assert isinstance(step, Step), (words, step.title)
        options = [each.text for each in step.answers]
        assert words in options, (step.title, options)
        piece = step.answers[options.index(words)].token
        did(Did.ANSWERED, branch="0", place=str(place), piece=piece, question=step.title, answer=words)
    did(Did.PROMISED, what="somebody", by="noon")
    did(Did.CLOSED, how="booked")
    store.calls.begin(id, "Wren", at)
    store.calls.add(id, *events)
