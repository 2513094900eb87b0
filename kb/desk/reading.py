"""All that follows from a call's events, together: danger, the faults, and how soon somebody goes."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from kb.article import End, Pace, Step
from kb.desk.call import Call, read_call
from kb.desk.danger import Agenda, agenda
from kb.desk.events import Did, Event
from kb.desk.script import Place, places
from kb.desk.unsure import way_out
from kb.facts import NOTHING_KNOWN, Known
from kb.library import Library
from kb.triage.pace import Circumstances, Judged, Works, chosen, is_sooner, judge

_KNOWN = {"yes": True, "no": False}


@dataclass(frozen=True, slots=True)
class Reading:
    """A call, read: its danger questions, where each of its faults stands, and its pace.

    `end` is where it has come to, None while a step waits; `pace` is `judged.pace`, or what the handler chose.
    """

    call: Call
    agenda: Agenda
    places: tuple[Place, ...]
    end: End | None
    judged: Judged
    pace: Pace

    @property
    def place(self) -> Place | None:
        """Where the fault stands that is being looked at."""
        return self.places[self.call.current] if self.places else None


def read(
    library: Library,
    events: Sequence[Event],
    today: date,
    known: Known = NOTHING_KNOWN,
    earlier: Iterable[Library] = (),
) -> Reading:
    """Read a call with what is known of its home; raises NoSuchFault where an article of it is gone.

    `earlier` are libraries of before, for the words of answers that are gone.
    """
    call = read_call(events)
    danger = agenda(library, events)
    found = tuple(places(library, call.branches, call.current, known, earlier))
    end = _end(danger, found, call.current)
    # Where danger was cleared again, the faults' own ends count as before.
    judged = judge(_pace(library, end, found), circumstances(call, today), by_danger=danger.end is not None)
    return Reading(call, danger, found, end, judged, _chosen(call, judged))


def circumstances(call: Call, today: date) -> Circumstances:
    """What of a call bears on its pace; whatever was not asked is not known."""
    people = call.people
    needs = frozenset(people.get("needs", "").split())
    return Circumstances(
        on=today,
        needs=needs if needs or people.get("asked") == "yes" else None,
        outdoor=degrees(people.get("outdoor", "")),
        indoor=degrees(people.get("indoor", "")),
        heating=_works(call.told.get("heating", "")),
        hot_water=_works(call.told.get("hot-water", "")),
        other_heat=_KNOWN.get(people.get("other-heat", "")),
        other_hot_water=_KNOWN.get(people.get("other-hot-water", "")),
        spreading=_KNOWN.get(people.get("spreading", "")),
        repeat_of=_day(call.repeat),
    )


def degrees(written: str) -> float | None:
    """A temperature as somebody writes it down; None for anything that is none."""
    plain = written.strip().casefold().replace(",", ".").replace("−", "-").replace("minus ", "-").rstrip("°c ")
    try:
        found = float(plain)
    except ValueError:
        return None
    return found if -60 <= found <= 60 else None


def _end(danger: Agenda, found: Sequence[Place], current: int) -> End | None:
    if danger.end is not None:
        return danger.end
    at: Step | End | None = found[current].at if found else None
    return at if isinstance(at, End) else None


def _pace(library: Library, end: End | None, found: Sequence[Place]) -> Pace:
    """The pace of the end, the soonest of all faults; a path that was left counts as one that could not be told."""
    if end is not None and end.pace is Pace.LEAVE:
        return end.pace
    paces = [end.pace] if end is not None else []
    for place in found:
        at = place.at
        paces.append(at.pace if isinstance(at, End) else way_out(library, at).pace)
    return min(paces, key=list(Pace).index) if paces else Pace.THREE_DAYS


def _chosen(call: Call, judged: Judged) -> Pace:
    """What the handler chose, unless something was learned since that speaks against it."""
    choice = next((event for event in reversed(call.events) if event.did is Did.PACE), None)
    to = next((pace for pace in Pace if choice is not None and pace == choice.get("to")), None)
    if choice is None or to is None:
        return judged.pace
    taken = chosen(judged, to, choice.get("why"))
    if not isinstance(taken, Pace):
        return judged.pace
    later = is_sooner(judged.pace, taken)
    return judged.pace if later and choice.get("judged") != judged.pace else taken


def _works(said: str) -> Works:
    return next((each for each in Works if each == said), Works.NOT_ASKED)


def _day(written: str) -> date | None:
    try:
        return date.fromisoformat(written)
    except ValueError:
        return None
