"""What the firm's own file says, and what is missing in it."""

from datetime import date

import pytest

from server.office.ourselves import missing
from tests.builders import TODAY, firm, region
from tests.server.html import Page


def test_the_page_tells_phones_hours_and_who_confirmed_the_emergency_numbers(office):
    words = Page(office.get("/office/firm").text).words
    for told in ("Office 01632 960123", "Mobile, takes texts 07700 900123", "Monday 08:00 to 17:30", "Sunday closed",
                 "The gas emergency number 0800 111 999, confirmed 25 November 2026 by gas engineer"):  # fmt: skip
        assert told in words, told


WHOLE = {
    "phones": [{"number": "01632 960123", "sms": True}, {"number": "07700 900123", "what": "out-of-hours"}],
    "answers_within": {"today": 120},
}


def said(today: date = TODAY, **changes: object) -> str:
    return " ".join(missing(firm(**{**WHOLE, **changes}), region(), today))


def test_nothing_is_missing_in_a_whole_file():
    assert said() == ""


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({"emergency": []}, "no card can be printed"),
        ({"hours": {}}, "No opening hours"),
        ({"phones": [{"number": "01632 960123"}]}, "no number for out of hours"),
        ({"phones": [{"number": "01632 960123", "what": "out-of-hours"}]}, "No number takes texts"),
        ({"answers_within": {}}, "promised no time"),
        ({"site": "http://127.0.0.1:8480"}, "opens on this machine alone"),
    ],
)
def test_what_is_missing_is_told_with_what_it_stops(changes, told):
    assert told in said(**changes)


def test_a_number_that_was_confirmed_long_ago_or_is_another_is_to_be_looked_at():
    assert "confirmed on 25 November 2026: confirm it again." in said(date(2027, 11, 26))
    assert said(date(2027, 11, 25)) == ""
    other = [{"kind": "gas", "number": "0800 111 998", "confirmed": TODAY, "by": "gas engineer"},
             {"kind": "emergency", "number": "999", "confirmed": TODAY, "by": "gas engineer"}]  # fmt: skip
    assert "is 0800 111 998 here, and 0800 111 999 in the profile" in said(emergency=other)
