"""On every page of a call a key does one thing, and a number on it rings."""

import re
from collections import Counter

import pytest

from kb.register import Record
from tests.server.conftest import SEALED
from tests.server.desk.conftest import Handler, faulty

PARTS = ("", "who", "what", "pace", "book", "finish", "note", "brief")
RINGS = '<a class="call" href="tel:+441632960111">01632 960111</a>'


@pytest.mark.parametrize("part", PARTS)
def test_no_key_stands_for_two_things(desk: Handler, part: str) -> None:
    keys = Counter(re.findall(r'data-key="([^"]+)"', faulty(desk).see(part).text))

    assert keys["d"] == 1
    assert [key for key, times in keys.items() if times > 1] == []


@pytest.mark.parametrize("part", ["note", "brief"])
def test_a_number_of_the_register_rings_when_it_is_pressed(desk: Handler, registered: Record, part: str) -> None:
    desk.begin().clear().does("home", key=SEALED.key).does("fault", article="low-pressure")

    assert RINGS in desk.see(part).text


def test_the_callers_own_number_rings_however_it_was_typed(desk: Handler) -> None:
    desk.begin().clear().does("caller", phone="01632960111", name="Robin & Co")

    assert f"<p>Robin &amp; Co, {RINGS}</p>" in desk.see("who").text
    assert desk.see("note").text.count(RINGS) == 2


def test_what_is_no_number_stands_as_it_was_said(desk: Handler) -> None:
    desk.begin().clear().does("caller", phone="the neighbour's, later")

    assert "the neighbour&#39;s, later" in desk.see("who").text
    assert 'href="tel:' not in desk.see("note").text


def test_no_key_stands_for_two_things_in_danger_and_at_an_end(desk: Handler) -> None:
    for page in (desk.begin().text, desk.says("yes").text, faulty(desk).answers("I am not sure").text):
        keys = re.findall(r'data-key="([^"]+)"', page)
        assert sorted(keys) == sorted(set(keys))
