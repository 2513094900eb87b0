"""The tables of an invented year, as the office saves them, against what pandas counts from the single rows."""

from collections.abc import Mapping
from dataclasses import asdict
from datetime import timedelta
from io import StringIO

import pandas
import pytest

from demo.year import year
from tests.server.conftest import WEDNESDAY_NOON as NOW

HOMES = [1, 2]


@pytest.fixture
def frames(office) -> Mapping[str, pandas.DataFrame]:
    site = office.site
    calls, jobs = year(site.library, NOW.date(), HOMES)
    site.store.figures.add_calls(calls)
    site.store.figures.add_jobs(jobs)
    assert min(len(calls), len(jobs)) > 500
    return {"calls": pandas.DataFrame(map(asdict, calls)), "jobs": pandas.DataFrame(map(asdict, jobs))}


@pytest.fixture
def saved(office, frames):
    def read(name: str) -> pandas.DataFrame:
        return pandas.read_csv(StringIO(office.get(f"/office/figures/{name}.csv?period=year").text))

    return read


def again(rows: pandas.DataFrame, began: str, ended: str, alike: list[str], within: timedelta) -> set[str]:
    """Which rows were followed by one that is alike so soon, by laying all of them side by side."""
    both = rows.dropna(subset=["home"]).merge(rows.dropna(subset=["home"]), on=alike, suffixes=("", "_later"))
    after = both[f"{began}_later"] - both[ended]
    soon = (after > timedelta()) & (after <= within) & (both["id"] != both["id_later"])
    return set(both.loc[soon, "id"])


def test_calls_by_week_and_kind(frames, saved):
    calls, table = frames["calls"], saved("calls")
    monday = (calls.began - pandas.to_timedelta(calls.began.dt.day_of_week, unit="D")).dt.strftime("%Y-%m-%d")
    weekly = table.set_index("Begins")["All calls"]
    assert weekly[weekly > 0].to_dict() == monday.value_counts().to_dict()
    assert sorted(table.iloc[:, 4:].sum()) == sorted(calls.category.value_counts())
    assert (table.iloc[:, 4:].sum(axis=1) == table["All calls"]).all()
    coldest = calls.groupby(monday).outdoor.min().dropna()
    assert table.set_index("Begins")["Coldest °C"].dropna().to_dict() == pytest.approx(coldest.to_dict())


def test_what_was_solved_by_phone_and_came_back(frames, saved):
    calls, table = frames["calls"], saved("by-phone")
    solved = calls[calls.how == "solved"]
    settled = solved[solved.closed + timedelta(hours=48) <= NOW]
    soon = again(calls, "began", "closed", ["home"], timedelta(hours=48))
    back = settled[settled.back | settled.id.isin(soon)]
    columns = ("Of calls", "Solved by phone", "Of solved", "Came back")
    assert tuple(table[each].sum() for each in columns) == (len(calls), len(solved), len(settled), len(back))


def test_danger_within_the_first_minute(frames, saved):
    assert saved("danger")["Within the minute"].sum() == (frames["calls"].danger <= 60).sum()


def test_what_was_fixed_first_time(frames, saved):
    jobs, table = frames["jobs"], saved("first-time")
    returned = again(jobs, "closed", "closed", ["home", "cause"], timedelta(days=28))
    turned = jobs.assign(closed=-(jobs.closed - NOW))
    returns = again(turned, "closed", "closed", ["home", "cause"], timedelta(days=28))
    first = jobs[(jobs.closed + timedelta(days=28) <= NOW) & ~jobs.id.isin(returns)]
    lasting = first[first.fixed & ~first.id.isin(returned)]
    assert (table["Of jobs"].sum(), table["Fixed first time"].sum()) == (len(first), len(lasting))


def test_parts_taken_and_used(frames, saved):
    jobs, table = frames["jobs"], saved("parts")
    both = jobs.apply(lambda job: job.taken & job.used, axis=1).explode().value_counts()
    wanted = jobs.apply(lambda job: job.used - job.taken, axis=1).explode().value_counts()
    rows = table.set_index("Part")
    assert rows["Taken along"][lambda n: n > 0].to_dict() == jobs.taken.map(list).explode().value_counts().to_dict()
    assert rows["Used of those"][lambda n: n > 0].to_dict() == both.to_dict()
    assert rows["Wanted, not there"][lambda n: n > 0].to_dict() == wanted.to_dict()


def test_steps_people_gave_up_at(frames, saved):
    stops = pandas.DataFrame(list(frames["calls"].stops.explode().dropna()))
    table = saved("steps")
    assert (table["By themselves"].sum(), table["With the desk"].sum()) == (stops.alone.sum(), (~stops.alone).sum())
    assert sorted(table["Together"]) == sorted(stops.step.value_counts())


def test_causes_and_homes(frames, saved):
    jobs, calls = frames["jobs"], frames["calls"]
    assert saved("causes").groupby("It was").Jobs.sum().to_dict() == jobs.cause.value_counts().to_dict()
    rang = calls[calls.began > NOW - timedelta(days=365)].home.dropna().value_counts()
    assert sorted(saved("homes").Calls) == sorted(rang[rang >= 3])
