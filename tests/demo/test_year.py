from collections import Counter
from datetime import date
from pathlib import Path

import pytest

from demo.year import weather, year
from kb.figures.rows import CallRow, JobRow
from kb.library import Library, load

TODAY = date(2026, 11, 25)
ARTICLES = Path(__file__).parents[2] / "articles/en"


@pytest.fixture(scope="module")
def library() -> Library:
    return load(ARTICLES)


@pytest.fixture(scope="module")
def made(library: Library) -> tuple[list[CallRow], list[JobRow]]:
    return year(library, TODAY, [1, 2, 3])


def months(calls: list[CallRow], category: str) -> Counter[int]:
    return Counter(call.began.month for call in calls if call.category == category)


def test_a_year_is_the_same_whenever_it_is_made(library: Library, made) -> None:
    assert year(library, TODAY, [1, 2, 3]) == made


def test_a_day_later_the_weeks_before_are_as_they_were(library: Library, made) -> None:
    later = {call.id: call for call in year(library, date(2026, 11, 26), [1, 2, 3])[0]}

    assert all(later[call.id] == call for call in made[0])


def test_condensate_comes_with_frost_and_controls_with_the_clocks(made) -> None:
    calls, _ = made

    cold = [call for call in calls if call.category == "condensate" and weather(call.began.date()).low <= 0]
    assert len(cold) > 0.8 * sum(months(calls, "condensate").values())
    assert months(calls, "controls")[10] > 2 * months(calls, "controls")[7]
    assert months(calls, "low-pressure")[10] > 2 * months(calls, "low-pressure")[7]


def test_every_row_has_an_id_of_its_own_that_fits(made) -> None:
    for rows in made:
        ids = [row.id for row in rows]
        assert len(ids) == len(set(ids)) > 500
        assert max(map(len, ids)) <= 24


def test_nothing_lies_in_the_future_and_causes_are_those_of_the_articles(library: Library, made) -> None:
    calls, jobs = made
    causes = {cause.name for article in library.faults() for cause in article.causes}

    assert all(call.began.date() < TODAY for call in calls)
    assert all(job.closed.date() < TODAY for job in jobs)
    assert {job.cause for job in jobs} | {each for job in jobs for each in job.expected} <= causes
