"""Each key at the desk does one thing: the page presses the first that has it."""

import re

import pytest

from kb.register import Record
from tests.server.conftest import SEALED
from tests.server.desk.conftest import Handler, faulty


@pytest.mark.parametrize("part", ["", "who", "what", "pace", "book", "finish", "note", "brief"])
def test_a_key_does_one_thing_on_every_page_of_a_call(desk: Handler, registered: Record, part: str) -> None:
    desk.begin().clear().does("caller", phone="01632 960111").does("home", key=SEALED.key)
    text = desk.does("fault", article="low-pressure").see(part).text
    keys = re.findall(r'data-key="([^"]+)"', text)
    assert len(keys) > 8
    assert sorted(keys) == sorted(set(keys))


def test_a_key_does_one_thing_in_danger_and_at_an_end(desk: Handler) -> None:
    for page in (desk.begin().text, desk.says("yes").text, faulty(desk).answers("I am not sure").text):
        keys = re.findall(r'data-key="([^"]+)"', page)
        assert sorted(keys) == sorted(set(keys))
