from datetime import date

import pytest

from kb.register import Month, month_of, read_month


def test_a_month_is_read_as_it_is_written():
    assert read_month("2026-11") == Month(2026, 11) == month_of(date(2026, 11, 25))
    assert str(Month(2026, 3)) == "2026-03"


@pytest.mark.parametrize("typed", ["", "2026", "2026-13", "2026-00", "26-11", "2026-1x", "1066-10", "²026-11"])
def test_what_is_no_month_is_none(typed):
    assert read_month(typed) is None


@pytest.mark.parametrize(("months", "there"), [(1, "2027-01"), (-12, "2025-12"), (13, "2028-01"), (0, "2026-12")])
def test_months_are_counted_over_the_years(months, there):
    assert str(Month(2026, 12).after(months)) == there
