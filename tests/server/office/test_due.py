"""What falls due, month by month."""

import pytest

from tests.registers import FIRST
from tests.server.html import Page


def due(office, month: str = "") -> Page:
    return Page(office.get(f"/office/due?month={month}" if month else "/office/due").text)


def test_this_month_tells_what_is_late_as_well(office):
    page = due(office)
    assert page.heading == "Due in November 2026"
    assert "Late, from earlier months Service due 1 Day What Home 4 October 2026 Marlpit C 30" in page.words


def test_another_month_tells_what_falls_in_it_alone(office):
    page = due(office, "2026-10")
    assert "Service due" in page.words
    assert "Late" not in page.words
    assert page.links["Flat 2, 14 Mill Lane, Ashcombe, ZZ99 3WZ"] == f"/office/homes/{FIRST}"
    assert "Nothing is due." in due(office, "2026-12").words


@pytest.mark.parametrize(
    ("month", "told"),
    [
        ("2030-10", "Warranty ends"),
        ("2031-05", "Alarm to be replaced"),
        ("2027-03", "Ask again what somebody needs"),
        ("2026-03", "Consent over twelve months old"),
    ],
)
def test_everything_that_falls_due_is_told(office, month, told):
    assert told in due(office, month).words


def test_no_name_stands_among_what_is_due(office):
    assert "Whitfield" not in due(office, "2027-03").words


@pytest.mark.parametrize("month", ["2026-13", "soon", "0000-01"])
def test_what_is_no_month_is_not_found(office, month):
    assert office.get(f"/office/due?month={month}").status_code == 404
