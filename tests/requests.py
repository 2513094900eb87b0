"""Requests to call, as a household would send them, for the tests of whatever handles them."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from typing import Any, Final

from kb.article import Pace
from kb.callback import Reach
from server.store.outbox import Letter
from server.store.requests import Asked, Request

NOW: Final = datetime(2026, 11, 25, 9, tzinfo=UTC)
TRIED: Final = {
    "article": "low-pressure",
    "trail": "none",
    "home": "KM3EQ-PKFPJ-TCQ9A",
    "reference": "ABC3 4",
    "about": "The gauge is too low",
    "end": "An engineer today",
    "told": [{"question": "Is any water dripping?", "answer": "No – “nothing”"}],
}


def asked(number: int = 1, **changes: Any) -> Asked:
    """A request, another one for each number."""
    first = Asked(f"{number:032x}", "Any Person", f"+4416329600{number:02}", Reach.ANY, Pace.TODAY, TRIED)
    return replace(first, **changes)


def letter(request: Asked | None = None, at: datetime = NOW) -> Letter:
    """A letter as it is claimed."""
    return Letter(1, "a" * 32, "b" * 32, 1, Request(1, request or asked(), at))


class Clock:
    """A clock that stands until it is moved."""

    def __init__(self, at: datetime = NOW) -> None:
        self.at = at

    def __call__(self) -> datetime:
        return self.at

    def seconds(self) -> float:
        return self.at.timestamp()

    def on(self, by: timedelta) -> None:
        self.at += by
