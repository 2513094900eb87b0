"""What does the engineer want to know before setting off?"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from kb.article import Article, Audience, Pace, Step
from kb.days import full_day
from kb.facts import FACT_NAMES, FACTS
from kb.home import PLACES, Home
from kb.numbers import shown, to_ring
from kb.prose import Block, Target
from kb.register import NEEDS, Record
from kb.triage.causes import Chance, Sign, chances, to_bring
from kb.triage.jobs import NO_JOBS, Tally

LIMITED_IN_WORDS: Final[Mapping[str, str]] = {
    "reset": "Resets",
    "top-up": "Top-ups",
    "thaw": "Thaws",
    "breaker": "Tripped switch put back",
    "meter-restore": "Meter's button pressed",
    "water-release": "Water or air let out",
    "relight": "Pilot lit again",
}
"""Everything that may be tried only so often, as an engineer counts it."""


@dataclass(frozen=True, slots=True)
class Answer:
    """A question with its answer, when it was given where that matters, and for phones the links that ring them."""

    question: str
    answer: str
    at: str = ""
    ring: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Likely:
    """A cause with its chance, the signs for and against it in words, what to bring, and how many jobs stand behind."""

    cause: str
    chance: float
    speaks_for: tuple[str, ...]
    speaks_against: tuple[str, ...]
    bring: tuple[str, ...]
    jobs: int


@dataclass(frozen=True, slots=True)
class Check:
    """One of the engineer's own steps, with what can come out of it."""

    title: str
    body: tuple[Block, ...]
    outcomes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """What a call, or a household's own walk, brought out.

    `given` are the words of the answer at each step; `tried` counts what is limited, before the call and in it.
    """

    pace: Pace
    end: str
    given: Mapping[Target, str] = field(default_factory=dict)
    answers: tuple[Answer, ...] = ()
    danger: tuple[Answer, ...] = ()
    tried: Mapping[str, tuple[int, int]] = field(default_factory=dict)
    words: tuple[str, ...] = ()
    shown: str = ""
    access: tuple[Answer, ...] = ()
    promised: tuple[str, ...] = ()
    noted: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Brief:
    """Everything for one visit, in the order in which it is read."""

    title: str
    pace: Pace
    end: str
    home: tuple[Answer, ...]
    access: tuple[Answer, ...]
    appliance: tuple[Answer, ...]
    history: tuple[str, ...]
    words: tuple[str, ...]
    noted: tuple[str, ...]
    danger: tuple[Answer, ...]
    answers: tuple[Answer, ...]
    tried: tuple[Answer, ...]
    causes: tuple[Likely, ...]
    bring: tuple[str, ...]
    jobs: int
    checks: tuple[Check, ...]
    promised: tuple[str, ...]
    last_time: tuple[Answer, ...] = ()


def brief(
    article: Article,
    steps: Mapping[Target, Step],
    told: Told,
    home: Home | None = None,
    record: Record | None = None,
    closed: Tally = NO_JOBS,
    history: Sequence[str] = (),
    agreed: str = "",
    last_time: Iterable[Answer] = (),
    region: str = "",
) -> Brief:
    """The brief for a visit about an article's fault; `history` are earlier calls and jobs, the newest first.

    `agreed` is when and who, in words; `last_time` is what a first visit leaves to the second.
    Phone numbers are written as people of the region write them.
    """
    found = chances(article, steps, told.given, closed, home.range if home else "")
    return Brief(
        title=article.title,
        pace=told.pace,
        end=told.end,
        home=_home(home, record, region),
        access=(*told.access, *_needs(record)),
        appliance=_appliance(home, record),
        history=tuple(history),
        words=told.words,
        noted=told.noted,
        danger=told.danger,
        answers=told.answers,
        tried=tuple(_tried(told)),
        causes=tuple(_likely(each, steps) for each in found),
        bring=to_bring(found),
        jobs=closed.jobs,
        checks=tuple(_check(step) for step in article.steps if step.audience is Audience.ENGINEER),
        promised=(*filter(None, [agreed]), *told.promised),
        last_time=tuple(last_time),
    )


def _home(home: Home | None, record: Record | None, region: str) -> tuple[Answer, ...]:
    lines = [Answer("Address", record.address.spoken)] if record and record.address else []
    for person in record.people if record else ():
        phones = [shown(phone, region) if region else phone for phone in person.phones]
        ring = tuple(filter(None, (to_ring(phone, region) for phone in person.phones))) if region else ()
        lines.append(Answer(person.name, ", ".join(phones) or "no number", ring=ring))
    for place, words in (home.places if home else {}).items():
        lines.append(Answer(PLACES[place].capitalize(), words))
    return tuple(lines)


def _needs(record: Record | None) -> tuple[Answer, ...]:
    """What a person needs from whoever comes; never why."""
    people = record.people if record else ()
    return tuple(Answer(person.name, NEEDS[need.kind]) for person in people for need in person.needs)


def _appliance(home: Home | None, record: Record | None) -> tuple[Answer, ...]:
    if home is None:
        return (Answer("Appliance", "not known"),)
    first = record.appliances[0] if record and record.appliances else None
    marks = home.known.marks
    lines = [Answer("Appliance", home.appliance)]
    lines += [Answer("Serial number", first.serial)] if first and first.serial else []
    lines += [Answer("Fitted", full_day(home.fitted))] if home.fitted else []
    lines += [Answer("Last service", full_day(first.serviced))] if first and first.serviced else []
    lines += [
        Answer(FACT_NAMES[fact], FACTS[fact].get(value, value))
        for fact, value in home.known.facts.items()
        if fact in FACTS
    ]
    if home.known.facts.get("system") == "sealed":
        lines.append(Answer("Gauge marks", f"{marks.low:g}, {marks.aim:g}, {marks.high:g} bar"))
    return tuple(lines)


def _tried(told: Told) -> list[Answer]:
    return [
        Answer(LIMITED_IN_WORDS.get(action, action), f"{before} before the call, {now} in it")
        for action, (before, now) in told.tried.items()
    ]


def _likely(each: Chance, steps: Mapping[Target, Step]) -> Likely:
    towards = tuple(_sign(sign, steps) for sign in each.signs if sign.times > 1)
    away = tuple(_sign(sign, steps) for sign in each.signs if sign.times < 1)
    return Likely(each.cause.name, each.chance, towards, away, each.cause.bring, each.jobs)


def _sign(sign: Sign, steps: Mapping[Target, Step]) -> str:
    step = steps.get(sign.step)
    times = f"{sign.times:.1f} times likelier" if sign.times > 1 else f"{1 / sign.times:.1f} times less likely"
    return f"{step.title if step else sign.step} {sign.answer} ({times})"


def _check(step: Step) -> Check:
    return Check(step.title, step.body, tuple(answer.text for answer in step.answers))
