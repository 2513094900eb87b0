from datetime import date

import pytest

from kb.article import Pace
from kb.desk.events import Did
from kb.desk.reading import circumstances, degrees, read
from kb.triage.pace import Works
from tests.kb.desk.calling import Told, books, no_to, real

BOOKS, REAL = books(), real()
JULY = date(2026, 7, 8)
CALM = {"asked": "yes", "indoor": "19", "outdoor": "15", "other-heat": "yes", "other-hot-water": "yes"}


def calm(told: Told) -> Told:
    return told.did(Did.PEOPLE, **CALM).did(Did.TOLD, heating="yes", hot_water="yes")


def pressure() -> Told:
    return Told().clear(BOOKS).did(Did.BEGAN, article="pressure", trail=no_to(BOOKS))


def test_the_pace_comes_from_the_end_and_the_people() -> None:
    told = calm(pressure().answered(BOOKS, "No", start=2))
    assert read(BOOKS, told.events, JULY).pace is Pace.TODAY


def test_a_path_that_was_left_counts_as_one_that_could_not_be_told() -> None:
    told = calm(pressure())
    assert read(BOOKS, told.events, JULY).judged.from_end is Pace.TODAY
    assert read(BOOKS, calm(Told()).events, JULY).judged.from_end is Pace.THREE_DAYS


def test_of_two_faults_the_sooner_counts() -> None:
    told = calm(pressure().answered(BOOKS, "Yes", "Right~1", start=2))
    assert read(BOOKS, told.events, JULY).pace is Pace.ADVICE
    told.did(Did.BEGAN, article="noise", trail=no_to(BOOKS)).did(Did.TURNED, branch="0")
    assert read(BOOKS, told.events, JULY).pace is Pace.TODAY


def test_danger_sets_the_pace_and_nobody_changes_it() -> None:
    told = Told().asked(REAL, "no", "no", "not-sure").did(Did.PACE, to="routine", why="they say it is fine")
    reading = read(REAL, told.events, JULY)
    assert (reading.pace, reading.judged.by_danger) == (Pace.LEAVE, True)


def test_a_label_is_today_at_the_latest() -> None:
    told = calm(Told().asked(REAL, *["no"] * 7, "yes")).did(Did.PACE, to="routine", why="they can wait", judged="today")
    assert read(REAL, told.events, JULY).pace is Pace.TODAY


@pytest.mark.parametrize(
    ("to", "why", "pace"),
    [("make-safe", "", Pace.MAKE_SAFE), ("routine", "", Pace.TODAY), ("routine", "they are away", Pace.ROUTINE)],
)
def test_the_handler_raises_freely_and_lowers_for_a_reason(to: str, why: str, pace: Pace) -> None:
    told = calm(pressure().answered(BOOKS, "No", start=2)).did(Did.PACE, to=to, why=why, judged="today")
    assert read(BOOKS, told.events, JULY).pace is pace


def test_a_later_pace_does_not_outlive_what_is_learned_afterwards() -> None:
    told = calm(pressure().answered(BOOKS, "No", start=2)).did(Did.PACE, to="routine", why="away", judged="today")
    told.did(Did.PEOPLE, needs="over-65", indoor="11")
    assert read(BOOKS, told.events, JULY).pace is Pace.MAKE_SAFE


def test_what_was_not_asked_is_not_known() -> None:
    around = circumstances(read(BOOKS, Told().did(Did.TOLD, heating="no").events, JULY).call, JULY)
    assert (around.needs, around.heating, around.hot_water) == (None, Works.NO, Works.NOT_ASKED)


@pytest.mark.parametrize(
    ("written", "found"),
    [
        ("14", 14),
        ("-3", -3),
        ("−3", -3),
        ("minus 2", -2),
        ("12,5 °C", 12.5),
        ("cold", None),
        ("1400", None),
        ("nan", None),
    ],
)
def test_a_temperature_is_read_as_people_write_it(written: str, found: float | None) -> None:
    assert degrees(written) == found
