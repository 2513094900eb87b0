"""A call that was booked, as the desk leaves it: for whatever begins with an engineer taking the visit."""

from datetime import UTC, datetime, timedelta
from secrets import token_hex
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
    told = _Told(at).begun(library, key, article)
    for place, words in enumerate(answers, len(questions(library))):
        step = places(library, read_call(told.events).branches, 0, known)[0].at
        assert isinstance(step, Step), (words, step.title)
        options = [each.text for each in step.answers]
        assert words in options, (step.title, options)
        piece = step.answers[options.index(words)].token
        told.did(Did.ANSWERED, branch="0", place=str(place), piece=piece, question=step.title, answer=words)
    told.did(Did.PROMISED, what="somebody", by="noon")
    told.did(Did.CLOSED, how="booked")
    store.calls.begin(id, "Wren", at)
    store.calls.add(id, *told.events)


def call_about(store: Store, library: Library, key: str, article: str, words: str, phone: str) -> str:
    """Keep a call that has come to its fault and goes on now; its id."""
    id, began = token_hex(8), datetime.now(UTC) - timedelta(minutes=2)
    store.calls.begin(id, "Wren", began)
    store.calls.add(id, *_Told(began).begun(library, key, article, words, phone).events)
    return id


class _Told:
    def __init__(self, at: datetime) -> None:
        self.at = at
        self.events: list[Event] = []

    def did(self, did: Did, **said: str) -> None:
        moment = self.at + timedelta(seconds=10 * len(self.events))
        self.events.append(Event(f"e{len(self.events)}", moment, "Wren", did, said))

    def begun(
        self, library: Library, key: str, article: str, words: str = WORDS, phone: str = "01632 960111"
    ) -> "_Told":
        """Danger first, then who rings, about which home, and what."""
        for step in questions(library):
            self.did(Did.ASKED, step=step.anchor, answer="no")
        self.did(Did.CALLER, name="Sam Field", phone=phone, access="dog in the yard")
        self.did(Did.HOME, key=key)
        self.did(Did.WORDS, words=words)
        if article:
            self.did(Did.BEGAN, article=article, trail=clear_trail(library), how="desk")
        return self
