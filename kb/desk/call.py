"""What do the events of a call say by now?"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Final

from kb.appointment import OFF, Appointment, NotMade, Turn, heard, read_left
from kb.desk.events import CALLER_FIELDS, TOLD_FIELDS, Did, Event

_TALKING: Final = frozenset({Did.ASKED, Did.CALLER, Did.HOME, Did.WORDS, Did.TOLD, Did.PEOPLE, Did.BEGAN, Did.ANSWERED})
"""What nobody writes down but while the caller is on the line, so that a line which had dropped is up again."""


@dataclass(frozen=True, slots=True)
class Given:
    """One answer of the script: its piece of the trail, and the words as they stood when it was given."""

    piece: str
    question: str = ""
    answer: str = ""
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Branch:
    """One fault of a call; `pieces` are the answers given, those that came with a reference first.

    `dropped` says which answers no longer existed when a later one was given, `lost` counts those that nobody can read.
    `unread` says that what came has still to be read back to the caller.
    """

    article: str
    given: tuple[Given, ...] = ()
    how: str = "desk"
    came: int = 0
    lost: int = 0
    unread: bool = False
    dropped: tuple[str, ...] = ()

    @property
    def pieces(self) -> tuple[str, ...]:
        """The pieces of its trail."""
        return tuple(each.piece for each in self.given)


@dataclass(frozen=True, slots=True)
class Quoted:
    """The caller's own words, or a note, and the dangers they may mean."""

    words: str
    at: datetime
    danger: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Call:
    """A call as its events leave it."""

    began: datetime | None = None
    events: tuple[Event, ...] = ()
    caller: Mapping[str, str] = field(default_factory=dict)
    key: str | None = None
    old_key: str = ""
    repeat: str = ""
    words: tuple[Quoted, ...] = ()
    notes: tuple[Quoted, ...] = ()
    told: Mapping[str, str] = field(default_factory=dict)
    people: Mapping[str, str] = field(default_factory=dict)
    flags: frozenset[str] = frozenset()
    branches: tuple[Branch, ...] = ()
    current: int = -1
    pace: str = ""
    pace_why: str = ""
    dropped: bool = False
    holder: str = ""
    promises: tuple[tuple[str, str], ...] = ()
    turns: tuple[Turn, ...] = ()
    closed: str = ""
    follow: str = ""
    followed: str = ""

    @property
    def called_off(self) -> bool:
        """Whether its visit was called off: nobody goes any more, whatever was agreed before."""
        return any(isinstance(turn, NotMade) and turn.what == OFF for turn in self.turns)

    @property
    def visit(self) -> Appointment | None:
        """The visit as it was agreed last; None where it was not made since."""
        last = self.turns[-1] if self.turns else None
        return None if isinstance(last, NotMade) else last

    @property
    def branch(self) -> Branch | None:
        """The fault that is being looked at."""
        return self.branches[self.current] if 0 <= self.current < len(self.branches) else None

    def of(self, did: Did) -> tuple[Event, ...]:
        """Everything of one sort that happened."""
        return tuple(event for event in self.events if event.did is did)


def read_call(events: Sequence[Event]) -> Call:
    """What the events say, one after the other; an event that says nothing usable changes nothing."""
    call = Call(began=events[0].at if events else None, events=tuple(events))
    for event in events:
        call = _after(call, event)
    return call


def _after(call: Call, event: Event) -> Call:
    if event.did in _TALKING:
        call = replace(call, dropped=False)
    match event.did:
        case Did.CALLER:
            return replace(call, caller={**call.caller, **_of(event, CALLER_FIELDS)})
        case Did.HOME:
            return replace(call, key=event.get("key"), old_key=event.get("old"), repeat=event.get("repeat"))
        case Did.WORDS:
            return replace(call, words=(*call.words, _quoted(event)))
        case Did.NOTED:
            return replace(call, notes=(*call.notes, _quoted(event)))
        case Did.TOLD:
            return replace(call, told={**call.told, **_of(event, TOLD_FIELDS)})
        case Did.PEOPLE:
            return replace(call, people={**call.people, **event.said})
        case Did.FLAGS:
            return replace(call, flags=frozenset(event.get("flags").split()))
        case Did.BEGAN | Did.TURNED | Did.ANSWERED | Did.READ_BACK:
            return _in_the_script(call, event)
    return _around(call, event)


def _around(call: Call, event: Event) -> Call:
    match event.did:
        case Did.PACE:
            return replace(call, pace=event.get("to"), pace_why=event.get("why"))
        case Did.DROPPED:
            return replace(call, dropped=True)
        case Did.HANDED:
            return replace(call, holder=event.get("to"))
        case Did.PROMISED:
            return replace(call, promises=(*call.promises, (event.get("what"), event.get("by"))))
        case Did.BOOKED:
            agreed = heard(event.said, event.by, event.at)
            return replace(call, turns=(*call.turns, agreed)) if agreed else call
        case Did.NOT_MADE:
            left = read_left(event.said, event.by, event.at)
            return replace(call, turns=(*call.turns, left)) if left else call
        case Did.CLOSED:
            return replace(call, closed=event.get("how"), follow=event.get("follow"), dropped=False)
        case Did.FOLLOWED:
            return replace(call, followed=event.get("works"), follow="")
    return call


def _in_the_script(call: Call, event: Event) -> Call:
    branches = list(call.branches)
    if event.did is Did.BEGAN:
        branches.append(_begun(event))
        return replace(call, branches=tuple(branches), current=len(branches) - 1)
    which = _number(event.get("branch"))
    if not 0 <= which < len(branches):
        return call
    branch = branches[which]
    if event.did is Did.READ_BACK:
        branches[which] = replace(branch, unread=False)
    elif event.did is Did.ANSWERED:
        branches[which] = _answered(branch, event)
    return replace(call, branches=tuple(branches), current=which)


def _answered(branch: Branch, event: Event) -> Branch:
    """An answer takes its place, over whatever stood there and after it; what stays is held ready behind it."""
    stays, drops = (_numbers(event.get(name), len(branch.given)) for name in ("stays", "drops"))
    counted = [each for number, each in enumerate(branch.given) if number not in {*stays, *drops}]
    place = _number(event.get("place"))
    if not 0 <= place <= len(counted):
        return branch
    given = Given(event.get("piece"), event.get("question"), event.get("answer"), event.at)
    dropped = (*branch.dropped, *event.get("dropped").splitlines())
    # An empty piece only goes back to the question.
    here = (given,) if given.piece else ()
    held = (branch.given[number] for number in stays)
    return replace(branch, given=(*counted[:place], *here, *held), dropped=dropped)


def _begun(event: Event) -> Branch:
    pieces = [Given(piece) for piece in event.get("trail").split("-") if piece]
    lost = _number(event.get("lost"))
    unread = event.get("slip") == "changed"
    return Branch(event.get("article"), tuple(pieces), event.get("how") or "desk", len(pieces), max(lost, 0), unread)


def _quoted(event: Event) -> Quoted:
    return Quoted(event.get("words"), event.at, tuple(event.get("danger").split()))


def _of(event: Event, fields: Mapping[str, str]) -> Mapping[str, str]:
    return {name: words for name, words in event.said.items() if name in fields}


def _number(written: str) -> int:
    return int(written) if written.isascii() and written.isdigit() and len(written) < 6 else -1


def _numbers(written: str, below: int) -> list[int]:
    found = dict.fromkeys(_number(each) for each in written.split())
    return [number for number in found if 0 <= number < below]
