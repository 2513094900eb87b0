import pytest
from hypothesis import given
from hypothesis import strategies as st

from kb.appliance import Clears, Code
from kb.findings import Place
from kb.panel_words import messages

SAYS = ["NO FLAME AT START", "FLAME LOST", "PRESSURE TOO LOW", "PRESSURE TOO HIGH", "ROOM CONTROL NOT HEARD"]
CODES = [Code("", says, "any", Clears.ITSELF, "common practice", Place("any.md", 1)) for says in SAYS]


def found(typed: str) -> list[str]:
    return [code.says for code, _ in messages(typed, CODES)]


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("no flame at start", "NO FLAME AT START"),
        ("no flame strt", "NO FLAME AT START"),
        ("start: no flame", "NO FLAME AT START"),
        ("the screen says flame lost", "FLAME LOST"),
        ("presure to low", "PRESSURE TOO LOW"),
        ("high pressure", "PRESSURE TOO HIGH"),
        ("cotrol not heard", "ROOM CONTROL NOT HEARD"),
        ("room contr", "ROOM CONTROL NOT HEARD"),
    ],
)
def test_some_words_in_any_order_and_spelling_are_enough(typed, says):
    assert found(typed) == [says]


def test_only_the_very_words_are_the_same():
    assert [same for _, same in messages("start at NO flame!", CODES)] == [True]
    assert [same for _, same in messages("no flame", CODES)] == [False]


def test_words_that_two_messages_share_are_both():
    assert set(found("pressure")) == {"PRESSURE TOO LOW", "PRESSURE TOO HIGH"}


@pytest.mark.parametrize("typed", ["", "K11", "12", "the", "water pours down the wall", "pressure normal", "no", "lo"])
def test_other_words_are_no_message(typed):
    assert found(typed) == []


@given(st.text(max_size=80))
def test_any_text_may_be_typed(typed):
    assert len(found(typed)) <= len(CODES)
