"""What does the firm read of a household that asks to be called?"""

from collections.abc import Iterator, Mapping
from typing import Any, Final

from kb.article import Pace
from kb.callback import REACH_WORDS, expect
from kb.firm import Firm
from server.store.requests import Request

PACES: Final[Mapping[Pace, str]] = {
    Pace.LEAVE: "at once",
    Pace.MAKE_SAFE: "as soon as you can",
    Pace.TODAY: "today",
    Pace.THREE_DAYS: "visit within three working days",
    Pace.ROUTINE: "visit when it suits",
    Pace.ADVICE: "advice, no visit needed",
}
"""How soon, in a few words for the firm."""


def subject(request: Request) -> str:
    """The subject of a mail: nothing about the household, since it shows on locked screens."""
    return f"Please call: {PACES[request.asked.pace]} ({request.reference})"


def text(request: Request, firm: Firm) -> str:
    """The body of a mail."""
    return "\n".join(_lines(request, firm)) + "\n"


def as_json(request: Request, firm: Firm, key: str) -> dict[str, Any]:
    """The same for a program; the same for every try, so that whoever is told twice can see it."""
    asked = request.asked
    due = expect(firm, asked.pace, asked.reach, request.at)
    return {
        "kind": "call-wanted",
        "id": key,
        "reference": request.reference,
        "asked": request.at.isoformat(),
        "pace": asked.pace.value,
        "reach": asked.reach.value,
        "expected": {"from": due.first[0].isoformat(), "to": (due.then or due.first)[1].isoformat()} if due else None,
        "name": asked.name,
        "phone": asked.phone,
        "tried": dict(asked.tried) if asked.tried is not None else None,
    }


def _lines(request: Request, firm: Firm) -> Iterator[str]:
    asked = request.asked
    yield f"A household asks you to call: {PACES[asked.pace]}."
    yield ""
    yield f"Number:    {asked.phone}"
    yield f"Name:      {asked.name or 'not given'}"
    yield f"Reach:     {REACH_WORDS[asked.reach].lower()}"
    yield f"Asked:     {request.at.astimezone(firm.clock):%A %d %B, %H:%M}"
    due = expect(firm, asked.pace, asked.reach, request.at)
    if due:
        yield f"Told them: a call by {(due.then or due.first)[1]:%A %d %B, %H:%M}"
    yield f"Reference: {request.reference}"
    yield ""
    if asked.tried is None:
        yield "They did not send along what they tried. Begin with the danger questions."
    else:
        yield from _tried(asked.tried)
    yield ""
    yield f"All requests: {firm.site}/staff"


def _tried(tried: Mapping[str, Any]) -> Iterator[str]:
    yield f"What they did: {tried['about']}. It led to: {tried['end']}."
    if tried["home"]:
        yield f"Key of their card: {tried['home']}"
    if tried["reference"]:
        yield f"Call reference: {tried['reference']}"
    for each in tried["told"]:
        yield f"- {each['question']} {each['answer']}"
