"""An invented year of calls and jobs, so that the office's pictures show something.

A season makes its own faults: ice in condensate pipes in frost, pressure lost over the summer, clocks when they change.
Every week has a seed of its own, so that a year is the same whenever it is made.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from math import cos, pi
from random import Random
from typing import Final

from kb.article import Article, Audience, Step
from kb.desk.danger import questions
from kb.figures.rows import FIRST_MINUTE, CallRow, JobRow, Stop
from kb.figures.weeks import Week
from kb.library import Library
from kb.triage.causes import chances
from server.site import Site

WEEKS: Final = 52
HOW: Final = ("solved", "booked", "emergency", "elsewhere", "no-answer")
DANGERS: Final = ("gas-smell", "carbon-monoxide")


@dataclass(frozen=True, slots=True)
class Weather:
    """How cold a day's night was, and the day before it."""

    low: float
    before: float


def year(library: Library, today: date, homes: Sequence[int]) -> tuple[list[CallRow], list[JobRow]]:
    """The calls and jobs of a year up to today; `homes` are numbers of homes that some of them are about."""
    calls: list[CallRow] = []
    jobs: list[JobRow] = []
    faults = {article.header.category: article for article in library.faults() if article.header.category}
    for number in range(Week.of(today).number - WEEKS + 1, Week.of(today).number + 1):
        week, random = Week(number), Random(number)
        for day in (week.monday + timedelta(days=n) for n in range(7)):
            if day < today:
                calls += _calls(random, week, day, faults, homes)
    for call in calls:
        if call.how == "booked":
            jobs += _jobs(library, call, faults[call.category], today)
    return [_stuck(call, questions(library)) for call in calls], jobs


def _stuck(call: CallRow, asked: Sequence[Step]) -> CallRow:
    """A slow call with the danger question at which it stuck."""
    if call.danger is None or call.danger <= FIRST_MINUTE:
        return call
    step = Random(call.id).choice(asked[:3])
    return replace(call, stuck=str(step.target), stuck_for=round(call.danger * 0.7, 1))


def fill(site: Site, today: date) -> None:
    """Put an invented year of calls and jobs up to a day into a store in which nothing was counted yet."""
    store = site.store.figures
    if store.earliest() is None:
        calls, jobs = year(site.library, today, store.homes())
        store.add_calls(calls)
        store.add_jobs(jobs)


def weather(day: date) -> Weather:
    """How cold it was: a wave over the year, and a shorter one of its own each week."""
    return Weather(_low(day), _low(day - timedelta(days=1)))


def _low(day: date) -> float:
    turn = day.timetuple().tm_yday / 365
    swing = Random(Week.of(day).number).gauss(0, 2.6) + Random(day.toordinal()).gauss(0, 1.0)
    return round(6.5 - 6.5 * cos(2 * pi * (turn - 0.06)) + swing, 1)


def _usual(day: date, weather: Weather) -> Mapping[str, float]:
    """How many calls a day of each category a firm of four engineers may expect (invented)."""
    cold = max(0.0, (9 - weather.low) / 9)
    autumn = max(0.0, 1 - abs(day.toordinal() - date(day.year, 10, 5).toordinal()) / 35)
    clocks = 1.0 if (day.month, day.day // 8) in ((10, 3), (3, 3)) else 0.0
    thaw = 1.0 if weather.before <= 0 < weather.low else 0.0
    return {
        "low-pressure": 0.5 + 0.7 * cold + 1.6 * autumn,
        "no-heating": 0.2 + 0.8 * cold + 1.0 * autumn,
        "ignition-failure": 0.2 + 0.6 * cold + 0.5 * autumn,
        "condensate": 0.05 + 2.2 * max(0.0, -weather.low),
        "controls": 0.35 + 0.3 * cold + 2.4 * clocks + 0.5 * autumn,
        "cold-radiators": 0.15 + 0.4 * cold + 0.6 * autumn,
        "no-hot-water": 0.5,
        "water-leak": 0.25 + 1.5 * thaw,
        "noise": 0.15 + 0.3 * cold,
        "gas-supply": 0.15 + (0.8 if (day.month, day.day > 20) == (12, True) else 0.0),
        "no-power": 0.2,
        "flame-loss": 0.1 + 0.3 * cold,
        "flue-fan": 0.1 + 0.2 * cold,
        "overheat": 0.1,
        "sensor-fault": 0.12,
        "high-pressure": 0.15,
        "wont-stop": 0.05 + (0.25 if 5 <= day.month <= 8 else 0.0),
        "high-bills": 0.05 + 0.15 * cold,
        "frost": 0.02 + 0.5 * max(0.0, -weather.low),
        "service": 0.2 + (0.4 if 5 <= day.month <= 8 else 0.0),
        "gas-smell": 0.05,
        "carbon-monoxide": 0.03 + 0.03 * cold,
    }


def _calls(
    random: Random, week: Week, day: date, faults: Mapping[str, Article], homes: Sequence[int]
) -> Iterator[CallRow]:
    nights = weather(day)
    busy = 0.35 if day.weekday() > 4 else 1.0
    for category, usual in _usual(day, nights).items():
        if category not in faults:
            continue
        for number in range(_how_many(random, usual * busy)):
            began = datetime.combine(day, time(random.randint(7, 18), random.randint(0, 59)), UTC)
            how = _how(random, category)
            yield CallRow(
                id=f"{day:%y%m%d}-{category[:12]}-{number}",
                began=began,
                closed=began + timedelta(minutes=random.randint(3, 16)),
                week=week,
                category=category,
                how=how,
                home=random.choice(homes) if homes and random.random() < 0.012 else None,
                danger=round(random.gauss(19, 5) if random.random() > 0.012 else random.uniform(65, 200), 1),
                back=how == "solved" and random.random() < 0.07,
                outdoor=nights.low if random.random() < 0.4 else None,
                stops=tuple(_stops(random, faults[category], how)),
            )


def _how_many(random: Random, usual: float) -> int:
    """A number of calls that happen by chance (Poisson, as in Knuth's second volume)."""
    count, left = 0, random.random()
    share = 2.718281828459045**-usual
    total, term = share, share
    while left > total and count < 60:
        count += 1
        term *= usual / count
        total += term
    return count


def _how(random: Random, category: str) -> str:
    if category in DANGERS:
        return "emergency"
    easy = {"controls": 60, "low-pressure": 48, "condensate": 45, "gas-supply": 25, "high-bills": 70, "frost": 55}
    solved = easy.get(category, 18)
    return random.choices(HOW, (solved, 92 - solved, 0, 14 if category == "gas-supply" else 5, 3))[0]


def _stops(random: Random, article: Article, how: str) -> Iterator[Stop]:
    steps = [step for step in article.steps if step.audience is Audience.HOUSEHOLD and "oil" not in step.title]
    if how in ("solved", "emergency") or not steps or random.random() > 0.45:
        return
    yield Stop(str(_harder(random, steps).target), random.random() < 0.55)


def _harder(random: Random, steps: Sequence[Step]) -> Step:
    """People give up where something is to be done or read rather than remembered."""
    return random.choices(steps, [6 if step.limit else 3 if step.reading else 1 for step in steps])[0]


def _jobs(library: Library, call: CallRow, article: Article, today: date) -> Iterator[JobRow]:
    """The visit to a call, if it is over."""
    random = Random(call.id)
    closed = call.closed + timedelta(hours=random.randint(2, 40))
    if closed.date() >= today or not article.causes:
        return
    found = chances(article, {}, {})
    cause = random.choices(article.causes, [each.share for each in article.causes])[0]
    expected = [each.cause for each in found[:2]]
    if random.random() < 0.45:
        # What was answered on the phone pointed to it.
        expected = [cause, *(each for each in expected if each != cause)][:2]
    taken = frozenset(part for each in expected for part in each.bring) if random.random() < 0.92 else frozenset()
    wanted = frozenset(part for part in cause.bring if random.random() < 0.6)
    fixed = wanted <= taken and random.random() < 0.95
    yield JobRow(
        id=f"j-{call.id}",
        closed=closed,
        week=Week.of(closed.date()),
        category=call.category,
        cause=cause.name,
        home=call.home,
        expected=tuple(each.name for each in expected),
        fixed=fixed and random.random() < 0.94,
        minutes=random.randint(25, 110),
        taken=taken,
        used=wanted if wanted <= taken else wanted & taken | frozenset(sorted(wanted - taken)[:1]),
    )
