"""What dated gauge readings say; the slope against numpy's own least squares."""

from datetime import datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as some

from kb.engineering.losses import Reading, litres_a_day, loss, swing
from kb.engineering.span import CannotWork

MONDAY = datetime(2026, 11, 23, 7)


def cold(days: float, bar: float) -> Reading:
    return Reading(MONDAY + timedelta(days=days), bar)


def hot(days: float, bar: float) -> Reading:
    return Reading(MONDAY + timedelta(days=days), bar, hot=True)


def test_the_swing_is_the_largest_rise_from_cold_to_hot() -> None:
    assert swing([hot(0.5, 1.8), cold(0, 1.2), cold(1, 1.1), hot(1.5, 2.4)]) == pytest.approx(1.3)


@pytest.mark.parametrize("readings", [[], [cold(0, 1.2)], [hot(0, 2.0)], [hot(0, 2.0), cold(1, 1.2)]])
def test_without_a_cold_and_then_a_hot_reading_there_is_no_swing(readings: list[Reading]) -> None:
    assert swing(readings) is None


def test_a_steady_loss_is_told_a_day() -> None:
    found = loss([cold(2, 1.1), cold(0, 1.5), cold(1, 1.3)])

    assert found is not None
    assert (found.bar_a_day, found.days, found.readings) == (pytest.approx(0.2), 2, 3)


def test_a_top_up_begins_anew() -> None:
    found = loss([cold(0, 1.5), cold(1, 0.7), cold(2, 1.5), cold(4, 1.3)])

    assert found is not None
    assert found.bar_a_day == pytest.approx(0.1)


def test_hot_readings_tell_nothing_of_a_loss() -> None:
    found = loss([cold(0, 1.5), hot(0.5, 2.2), cold(2, 1.3)])

    assert found is not None
    assert found.bar_a_day == pytest.approx(0.1)


@pytest.mark.parametrize("readings", [[], [cold(0, 1.2)], [cold(0, 1.2), cold(0, 1.15)], [cold(0, 1.0), cold(1, 1.2)]])
def test_one_moment_tells_no_loss(readings: list[Reading]) -> None:
    assert loss(readings) is None


@given(some.lists(some.floats(1.0, 1.05), min_size=2, max_size=8))
def test_the_slope_is_that_of_numpy(bars: list[float]) -> None:
    found = loss([cold(day, bar) for day, bar in enumerate(bars)])

    assert found is not None
    assert found.bar_a_day == pytest.approx(-np.polyfit(range(len(bars)), bars, 1)[0], abs=1e-9)


def test_litres_a_day_are_boyles() -> None:
    # 8 l at 0.75 bar give up 1.4 l from 1.5 to 1.0 bar (Boyle, absolute pressures of 2.5 and 2.0 bar).
    assert litres_a_day(1.5, 1.0, 48, 8, 0.75) == pytest.approx(0.7)


def test_no_time_between_is_refused() -> None:
    with pytest.raises(CannotWork, match="some time between"):
        litres_a_day(1.5, 1.0, 0, 8, 0.75)
