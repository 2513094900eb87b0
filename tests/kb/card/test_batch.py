from dataclasses import replace

import pytest

from kb.card import Reason, Refused, Style, together
from kb.card.press import press
from kb.card.sizes import FORMATS
from kb.card.value import Setting
from tests.kb.card.cards import PLACES, card, family, gb, home, library, made
from tests.kb.card.printed import pictures

from kb.card.gather import gathered  # isort: skip
from tests.builders import TODAY, firm  # isort: skip


def whole(size="a6", **changes):
    return gathered(home(**changes), family(), firm(), gb(), library(), TODAY, Style(size))


NO_KEY = Refused((Reason("home.key", "The home has no key.", "Give it one."),))


@pytest.mark.parametrize("size", FORMATS)
def test_a_card_among_others_looks_as_it_does_alone(size):
    long = dict.fromkeys(PLACES, "behind the third panel from the left, " * 3)
    homes = [{}, {"places": long}, {"appliance": "Anymake 30 with a very long name of its own"}]
    alone = [picture for each in homes for picture in pictures(press().pdf(made(home(**each), style=Style(size))), 60)]
    among = pictures(together([whole(size, **each) for each in homes]).pdf, 60)
    assert [picture.tobytes() for picture in among] == [picture.tobytes() for picture in alone]


def test_who_was_refused_is_named_by_place_and_the_others_are_printed():
    found = together([NO_KEY, whole(), whole(appliance="暖房 24"), whole()])
    assert {n: each.reasons[0].field for n, each in found.refused.items()} == {0: "home.key", 2: "home.appliance"}
    assert len(pictures(found.pdf, 20)) == 4


def test_where_nobody_can_be_printed_there_is_no_pdf():
    found = together([NO_KEY])
    assert found.pdf is None
    assert list(found.refused) == [0]


def test_a_card_that_does_not_fit_is_refused_and_leaves_no_gap():
    too_wide = replace(whole(), firm=replace(whole().firm, name="W" * 60))
    found = together([too_wide, whole()])
    assert [each.reasons[0].field for each in found.refused.values()] == ["firm.name"]
    assert len(pictures(found.pdf, 20)) == 2


def test_a_sheet_says_of_each_card_whether_it_fits():
    tall = replace(card(), back=Setting(20.0))
    printed = press().printed([card(), tall], sheets=True)
    assert [printed.sits(0), printed.sits(1)] == [True, False]


@pytest.mark.parametrize("size", FORMATS)
def test_room_is_told_alike_on_a_sheet_and_alone(size):
    made_ = card(style=Style(size))
    alone, on_sheet = press().printed([made_]).left[0], press().printed([made_], sheets=True).left[0]
    assert on_sheet == pytest.approx(alone, abs=0.01)
