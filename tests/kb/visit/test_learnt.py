"""What a closed job teaches, and that it teaches nobody but the engineer."""

import inspect
import subprocess
import sys

import pytest

from kb.prose import Target
from kb.triage import pace
from kb.triage.causes import chances
from kb.triage.jobs import ClosedJob, Tally, tally
from kb.visit.checks import standing, starts
from kb.visit.job import field_of
from kb.visit.learnt import evidence
from kb.walk import walk
from tests.kb.visit.building import books

SHELF = books()
(START,) = starts(SHELF, "cold")
HUMS, PUMP = Target("cold", "does-it-hum"), Target("cold", "listen-to-the-pump")
GIVEN = {HUMS: "No", Target("danger", "can-you-smell-gas"): "No"}


def found() -> dict[Target, str]:
    walked = standing(SHELF, START, {"danger": "none", field_of(PUMP): "It is stuck"})
    return dict(evidence(SHELF, GIVEN, [walked]))


def test_the_household_the_desk_and_the_engineer_give_evidence_and_danger_does_not() -> None:
    assert found() == {HUMS: "No", PUMP: "It is stuck"}


def test_what_was_learnt_moves_the_chances() -> None:
    article, steps = SHELF.articles["cold"], {step.target: step for step in SHELF.steps()}
    learnt = tally([ClosedJob("cold", "any", "The board", {HUMS: "No"})] * 60, "cold")
    assert chances(article, steps, {HUMS: "No"})[0].cause.name == "The pump"
    assert chances(article, steps, {HUMS: "No"}, learnt)[0].cause.name == "The board"


LEARNING = ("kb.visit", "kb.triage.jobs", "kb.triage.causes", "kb.triage.brief")


@pytest.mark.parametrize("module", ["kb.walk", "kb.triage.pace", "kb.desk.danger", "kb.desk.reading", "kb.desk.script"])
def test_neither_a_walk_nor_a_pace_can_know_what_was_learnt(module: str) -> None:
    """Imported alone in a fresh interpreter, nothing that learns comes with it."""
    code = f"import sys, {module}; print(sorted(m for m in sys.modules if m.startswith({LEARNING!r})))"
    said = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert said.stdout.strip() == "[]"


@pytest.mark.parametrize("function", [walk, pace.judge, pace.chosen])
def test_neither_is_handed_what_was_learnt(function: object) -> None:
    handed = inspect.signature(function, eval_str=True).parameters.values()  # type: ignore[arg-type]
    assert not {each.annotation for each in handed} & {Tally, ClosedJob}
