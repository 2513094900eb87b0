"""`tundish causes` as a person runs it."""

from datetime import UTC, datetime
from pathlib import Path

import pytest
from typer.testing import CliRunner

from kb.visit.job import Closed, Job
from server.cli import app
from server.store import Store
from server.store.upgrade import migrate

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)


def run(*words: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, ["causes", *words])
    return result.exit_code, result.stdout, result.stderr


@pytest.fixture(autouse=True)
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    address = f"sqlite:///{tmp_path / 'homes.db'}"
    migrate(address)
    monkeypatch.setenv("TUNDISH_DATABASE", address)
    return address


def close(address: str, amount: int, cause: str, family: str = "any") -> None:
    with Store(address) as store:
        for number in range(amount):
            id = f"{cause[:8]}-{family}-{number}"
            store.jobs.begin(Job(id, "low-pressure", NOON, "Robin", range=family))
            store.jobs.close(id, Closed(NOON, "Robin", cause, "fixed", "no"), {})


def names(said: str) -> list[str]:
    return list(told(said))


def told(said: str) -> dict[str, int]:
    """The chance of each cause, in percent, in the order they were printed."""
    lines = (line.split("%  ") for line in said.splitlines()[1:-1])
    return {rest.split("  ")[0]: int(chance) for chance, rest in lines}


def test_before_any_job_the_shares_are_the_articles_own() -> None:
    status, said, _ = run("low-pressure")
    assert status == 0
    assert ": 0 closed jobs." in said
    shares = [float(line.split("%")[0]) for line in said.splitlines()[1:-1]]
    assert sum(shares) == pytest.approx(100, abs=2)
    assert shares == sorted(shares, reverse=True)
    assert said.splitlines()[-1].startswith("Bring: ")


def test_closed_jobs_move_the_chances_and_are_told(machine: str) -> None:
    last = names(run("low-pressure")[1])[-1]
    close(machine, 90, last)
    said = run("low-pressure")[1]
    assert names(said)[0] == last
    assert "90 jobs" in said.splitlines()[1]


def test_a_range_has_its_own_chances(machine: str) -> None:
    last = names(run("low-pressure")[1])[-1]
    close(machine, 40, last, "marlpit-c")
    here, elsewhere = run("low-pressure", "--range", "marlpit-c")[1], run("low-pressure", "--range", "other")[1]
    assert "40 of them of the range marlpit-c" in here
    assert told(here)[last] > told(elsewhere)[last]


def test_what_was_closed_as_none_of_the_causes_is_told_without_a_chance(machine: str) -> None:
    close(machine, 3, "No fault, advice given")
    assert "-  No fault, advice given" in run("low-pressure")[1]


def test_a_fault_that_is_not_there_is_told_with_those_there_are() -> None:
    status, said, aside = run("goblins")
    assert (status, said) == (2, "")
    assert "'goblins'" in aside
    assert "low-pressure" in aside
