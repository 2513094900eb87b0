"""What does a signed record teach about its home?

Nothing about people is in a record's fields that set something, so nothing of them gets here.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date
from typing import Final

from kb.facts import GaugeMarks, Known
from kb.handover.known import STAYS
from kb.handover.state import State
from kb.register import Alarm, Appliance, Record

_ALARMS: Final = ("co", "smoke")
"""The alarms that a record asks for, of each kind the first that the register has."""


def record_after(state: State, key: str, before: Record | None) -> Record:
    """The register's record as a signed one leaves it; what the signed one does not ask stays as it was.

    Raises ValueError for a record that is not ready to be signed.
    """
    learnt = dict(_learnt(state))
    old = before or Record(key, (Appliance(""),))
    if _is_another(learnt, old.appliances[0]):
        old = _without_appliance(old)
    first = _appliance(state, learnt, old.appliances[0])
    return replace(
        old,
        appliances=(first, *old.appliances[1:]),
        known=known_after(learnt, old.known),
        places=_places(state, learnt, old.places),
        alarms=_alarms(learnt, old.alarms),
    )


def known_after(learnt: Mapping[str, object], old: Known) -> Known:
    """What is known with what was learnt, by what that says of the home; all else stays as it was."""
    facts = {**old.facts, **named(learnt, "fact")}
    if facts.get("system") == "vented" and facts.get("filling-loop") != "none":
        facts.pop("filling-loop", None)
    return replace(old, facts=facts, marks=_marks(learnt, old.marks))


def named(learnt: Mapping[str, object], kind: str) -> dict[str, str]:
    """What was learnt of one kind, such as facts or places, by its own name."""
    start = f"{kind}:"
    return {name.removeprefix(start): str(value) for name, value in learnt.items() if name.startswith(start)}


def _learnt(state: State) -> Iterator[tuple[str, object]]:
    for field in state.all_asked():
        meaning = state.meaning(field.id)
        if field.sets and meaning is not None:
            yield field.sets, meaning


def _is_another(learnt: Mapping[str, object], before: Appliance) -> bool:
    """Whether the record is about another appliance than the one that the register knew."""
    serial, plate = str(learnt.get("home:serial", "")), str(learnt.get("home:appliance", ""))
    if before.serial and serial:
        return serial.casefold() != before.serial.casefold()
    return plate.casefold() != before.plate.casefold()


def _without_appliance(old: Record) -> Record:
    """The home as it is with its appliance taken out; limits stay, since fewer attempts harm nobody."""
    facts = {fact: value for fact, value in old.known.facts.items() if f"fact:{fact}" in STAYS}
    places = {place: words for place, words in old.places.items() if f"place:{place}" in STAYS}
    known = Known(facts, limits=old.known.limits)
    return replace(old, appliances=(Appliance(""), *old.appliances[1:]), known=known, places=places)


def _appliance(state: State, learnt: Mapping[str, object], old: Appliance) -> Appliance:
    range, fuel = str(learnt.get("home:range", old.range)), learnt.get("fact:fuel")
    make = state.form.makes.get(range)
    combi = "combi" if learnt.get("fact:hot-water") == "combi" else None
    return replace(
        old,
        plate=str(learnt.get("home:appliance", old.plate)),
        range=range,
        fuel=str(fuel) if fuel else old.fuel,
        kind=make.value if make else old.kind or combi,
        serial=str(learnt.get("home:serial", old.serial)),
        fitted=_day(learnt.get("home:fitted")) or old.fitted,
        warranty_ends=_day(learnt.get("home:warranty-ends")) or old.warranty_ends,
        next_service=_day(learnt.get("home:next-service")) or old.next_service,
    )


def _places(state: State, learnt: Mapping[str, object], old: Mapping[str, str]) -> dict[str, str]:
    """Where things are; what such a home has not is nowhere."""
    asked = {field.sets for field in state.all_asked()}
    places = {**old, **named(learnt, "place")}
    return {place: words for place, words in places.items() if f"place:{place}" in asked}


def _alarms(learnt: Mapping[str, object], old: tuple[Alarm, ...]) -> tuple[Alarm, ...]:
    alarms = list(old)
    for kind in _ALARMS:
        place, ends = str(learnt.get(f"alarm:{kind}.place", "")), _day(learnt.get(f"alarm:{kind}.ends"))
        at = next((n for n, alarm in enumerate(alarms) if alarm.kind == kind), None)
        if place and at is not None:
            alarms[at] = Alarm(kind, place, ends or alarms[at].ends)
        elif place:
            alarms.append(Alarm(kind, place, ends))
    return tuple(alarms)


def _marks(learnt: Mapping[str, object], before: GaugeMarks) -> GaugeMarks:
    figures = {name: learnt.get(f"mark:{name}") for name in ("low", "aim", "high")}
    return GaugeMarks(
        **{name: value if isinstance(value, float) else before.bar(name) for name, value in figures.items()}
    )


def _day(value: object) -> date | None:
    return value if isinstance(value, date) else None
