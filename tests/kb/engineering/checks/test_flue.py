"""The flue's length against the maker's maximum."""

from kb.engineering.remark import Level
from tests.kb.engineering.records import asked, only, record, said


def test_bends_count() -> None:
    remark = said(record(), "flue-length")

    assert remark.text == "The flue counts as 3.0 m; the maker allows 8 m."
    assert remark.working[0] == "2 m + 1 × 1 m + 0 × 0.5 m = 3 m"


def test_too_long_is_a_danger_and_just_as_long_is_not() -> None:
    assert said(record(flue_straight_m=7.1), "flue-length").level is Level.DANGER
    assert said(record(flue_straight_m=7.0), "flue-length").level is Level.FINE


def test_a_slipped_point_is_guessed_after_the_warning() -> None:
    assert said(record(flue_straight_m=25), "flue-length").text.endswith("2.5 m would fit.")


def test_bends_without_what_one_counts_are_asked_about() -> None:
    assert asked(record(flue_bend_90_m=None)) == {"flue-bends"}
    assert asked(only("flue_straight_m", "flue_max_m", flue_bends_45=2)) == {"flue-bends"}


def test_without_the_makers_maximum_nothing_is_said() -> None:
    assert asked(only("flue_straight_m", "flue_bends_90")) == set()
