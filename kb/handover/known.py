"""What of a home need not be asked, and what does a signed record teach about it?"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date

from kb.facts import NOTHING_KNOWN, GaugeMarks, Known
from kb.handover.form import Form
from kb.handover.state import State
from kb.home import Home


def known_of(form: Form, home: Home) -> Mapping[str, str]:
    """What a record of this home begins with, by field: its facts, its marks, its places and its appliance.

    The day of commissioning and of the next service are this visit's own.
    """
    told = told_of(home)
    return {field.id: told[field.sets] for field in form.by_id.values() if field.sets in told}


def told_of(home: Home) -> Mapping[str, str]:
    """Everything that is known of a home, by what a field that asks for it sets."""
    return dict(_told(home))


def after_learning(
    learnt: Mapping[str, object], known: Known, places: Mapping[str, str]
) -> tuple[Known, Mapping[str, str]]:
    """What is known, and where things are, with what was learnt; what that does not speak of stays as it was."""
    facts = {**known.facts, **_named(learnt, "fact")}
    there = {**places, **_named(learnt, "place")}
    if facts.get("system") == "vented":
        there.pop("filling-loop", None)
    return replace(known, facts=facts, marks=_marks(learnt, known.marks)), there


def _told(home: Home) -> Iterator[tuple[str, str]]:
    yield "home:range", home.range
    yield "home:appliance", home.appliance
    yield from ((f"fact:{fact}", value) for fact, value in home.known.facts.items())
    yield from ((f"place:{place}", words) for place, words in home.places.items())
    if home.known.marks != NOTHING_KNOWN.marks:
        marks = home.known.marks
        yield from ((f"mark:{name}", f"{marks.bar(name):g}") for name in ("low", "aim", "high"))


def home_after(state: State, key: str, before: Home | None) -> Home:
    """The home as a signed record leaves it; what the record does not ask stays as it was.

    Nothing about people is in a record's fields that set something, so nothing of them gets here.
    Raises ValueError for a record that is not ready to be signed.
    """
    learnt = dict(_learnt(state))
    old = before or Home(key, "", "")
    known, places = after_learning(learnt, old.known, old.places)
    return replace(
        old,
        range=str(learnt.get("home:range", old.range)),
        appliance=str(learnt.get("home:appliance", old.appliance)),
        known=known,
        places=places,
        fitted=_day(learnt.get("home:fitted")) or old.fitted,
        next_service=_day(learnt.get("home:next-service")) or old.next_service,
    )


def _learnt(state: State) -> Iterator[tuple[str, object]]:
    for field in state.all_asked():
        meaning = state.meaning(field.id)
        if field.sets and meaning is not None:
            yield field.sets, meaning


def _named(learnt: Mapping[str, object], kind: str) -> dict[str, str]:
    start = f"{kind}:"
    return {name.removeprefix(start): str(value) for name, value in learnt.items() if name.startswith(start)}


def _marks(learnt: Mapping[str, object], before: GaugeMarks) -> GaugeMarks:
    figures = {name: learnt.get(f"mark:{name}") for name in ("low", "aim", "high")}
    return GaugeMarks(
        **{name: value if isinstance(value, float) else before.bar(name) for name, value in figures.items()}
    )


def _day(value: object) -> date | None:
    return value if isinstance(value, date) else None
