import pytest

from kb.handover.record import Entry, texts
from tests.kb.handover.records import NOON, state


def test_the_latest_entry_of_a_field_counts() -> None:
    written = [Entry(f"e{n}", n, "pump", text, "Robin", NOON) for n, text in enumerate(["1", "2", ""])]
    assert texts(written[:2]) == {"pump": "2"}
    assert texts(written) == {"pump": ""}


def test_a_range_of_combis_says_what_makes_hot_water() -> None:
    assert state(hot_water="", system="").chosen["hot-water"] == "combi"
    assert "hot-water" not in state(range="sedgebrook").chosen


def test_marks_follow_from_the_cold_fill() -> None:
    figures = state(cold_bar="1.5").figures()
    assert [figures[mark] for mark in ("low", "aim", "high")] == [1.1, 1.5, 2.1]


@pytest.mark.parametrize(("cold", "marks"), [("0.2", [0.6, 0.7, 1.3]), ("3", [1.9, 2.3, 2.4])])
def test_marks_stay_where_marks_may_be(cold: str, marks: list[float]) -> None:
    figures = state(cold_bar=cold).figures()
    assert [figures[mark] for mark in ("low", "aim", "high")] == marks


def test_a_mark_that_was_typed_is_left_and_the_others_follow_it() -> None:
    figures = state(aim="1.4").figures()
    assert [figures[mark] for mark in ("low", "aim", "high")] == [1.0, 1.4, 2.0]


def test_no_mark_follows_from_a_fill_that_cannot_be() -> None:
    assert "aim" not in state(cold_bar="12").values


def test_the_drop_follows_from_two_pressures() -> None:
    assert state().text("drop-mbar") == "0.6"


def test_the_next_service_is_a_year_later_also_from_a_leap_day() -> None:
    assert state().text("next-service") == "2027-11-25"
    assert state(fitted="2028-02-29").text("next-service") == "2029-02-28"


def test_what_a_home_has_not_is_not_asked() -> None:
    asked = {field.id for field in state(hot_water="unvented", system="vented").all_asked()}
    assert {"store-c", "discharge"} <= asked
    assert not {"dhw-lpm", "cold-bar", "aim"} & asked


def test_what_depends_on_something_open_is_not_asked_yet() -> None:
    asked = {field.id for field in state({}).all_asked()}
    assert "fuel" in asked
    assert not {"store-c", "dhw-lpm", "spillage", "intake-o2", "gas-m3"} & asked


def test_a_figure_that_is_no_longer_asked_is_not_looked_at() -> None:
    assert "dhw-lpm" in state().figures()
    assert "dhw-lpm" not in state(hot_water="cylinder").figures()


@pytest.mark.parametrize(
    ("fitted", "next_service"),
    [
        ("2023-10-04", "2027-10-04"),
        ("2023-12-04", "2026-12-04"),
        ("2025-11-25", "2027-11-25"),
        ("2026-12-01", "2027-12-01"),
    ],
)
def test_the_next_service_is_on_an_anniversary_that_is_still_to_come(fitted: str, next_service: str) -> None:
    assert state(fitted=fitted).text("next-service") == next_service
