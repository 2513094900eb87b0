from dataclasses import replace

import pytest

from kb.card.fit import Misfit, Reach, Trial, fitted, reasons_for
from kb.card.sizes import A6, BOTH
from kb.card.value import Card, Setting
from tests.kb.card.cards import card

ROOM = 138.0


def unfitted():
    """A card as it is gathered, before anybody has looked whether it fits."""
    front, back = (Setting(sizing.first) for sizing in A6.sides.values())
    return replace(card(), front=front, back=back)


def refused(paper, card=None):
    """Why a card does not fit on this paper."""
    found = fitted(card or unfitted(), paper)
    assert isinstance(found, Misfit)
    return reasons_for(found, paper, found.trial.overfull())


class Paper:
    """A stand-in for the press: each side reaches so far at its first size, and less with every smaller one."""

    def __init__(self, front=ROOM, back=ROOM, too_wide=None, heights=None):
        self.at_first = {"front": front, "back": back}
        self.too_wide = too_wide or {}
        self.told = heights or {}
        self.trials = []

    def tried(self, card, sides=BOTH):
        self.trials.append(sides)
        return Trial({side: Reach(self._reach(card, side), ROOM, 4) for side in sides}, self.too_wide)

    def heights(self, card):
        return self.told

    def _reach(self, card, side):
        size = getattr(card, side).size
        return self.at_first[side] * (size / A6.sides[side].first) ** 2


def test_a_full_card_that_fits_keeps_its_first_sizes_after_one_trial():
    paper = Paper(front=ROOM, back=ROOM)
    found = fitted(unfitted(), paper)
    assert (found.front.size, found.back.size) == tuple(sizing.first for sizing in A6.sides.values())
    assert len(paper.trials) == 1


def test_a_side_that_is_too_long_is_set_smaller_and_tried_alone():
    paper = Paper(front=ROOM * 1.08, back=ROOM)
    found = fitted(unfitted(), paper)
    assert A6.sides["front"].least <= found.front.size < A6.sides["front"].first
    assert found.back.size == A6.sides["back"].first
    assert set(paper.trials[1:]) == {("front",)}


def test_a_side_with_room_to_spare_is_set_larger_up_to_its_most():
    found = fitted(unfitted(), Paper(front=ROOM, back=ROOM / 2))
    assert found.back.size == A6.sides["back"].most


def test_a_side_that_does_not_fit_larger_stays_as_it_was_with_its_room():
    class Jumpy(Paper):
        def _reach(self, card, side):
            return 120.0 if getattr(card, side).size == A6.sides[side].first else 500.0

    paper = Jumpy()
    found = fitted(unfitted(), paper)
    assert found.back.size == A6.sides["back"].first
    assert found.back.between == pytest.approx((ROOM - 120) / 3)


@pytest.mark.parametrize("over", [1.01, 1.1, 1.2, 1.3, 1.38, 1.4])
def test_what_fits_at_the_smallest_size_is_never_refused(over):
    sizing = A6.sides["front"]
    found = fitted(unfitted(), Paper(front=ROOM * over, back=ROOM, heights={"front:firm": 99.0}))
    assert isinstance(found, Card) is (over * (sizing.least / sizing.first) ** 2 <= 1)


@pytest.mark.parametrize(("reach", "between"), [(ROOM, 0), (ROOM - 6, 2), (20, A6.most_between)])
def test_the_room_that_is_left_lies_between_the_parts(reach, between):
    assert fitted(unfitted(), Paper(front=reach)).front.between == pytest.approx(between)


def test_a_line_that_is_too_wide_is_named_with_its_words():
    (reason,) = refused(Paper(too_wide={"firm": "A very long name"}))
    assert reason.field == "firm.name"
    assert "'A very long name'" in reason.found


def test_a_side_that_never_fits_names_the_texts_that_take_more_than_their_share():
    heights = {"front:danger": 50.0, "fault:0": 20.0, "fault:1": 60.0, "place:2": 4.0}
    (reason,) = refused(Paper(back=300, heights=heights))
    assert reason.field == "articles: fault-2, On the card"
    assert "mm too long" in reason.found


def test_where_each_keeps_to_its_share_the_two_longest_are_named():
    heights = {"fault:0": 20.0, "reset": 30.0, "never": 10.0}
    found = refused(Paper(back=300, heights=heights))
    assert [reason.field for reason in found] == ["range.reset", "articles: fault-1, On the card"]


@pytest.mark.parametrize(
    ("part", "field"),
    [("place:1", "home.places.stop-tap"), ("reset", "range.reset"), ("never", "words.NEVER")],
)
def test_every_part_of_the_back_has_a_field(part, field):
    (reason,) = refused(Paper(back=300, heights={part: 99.0}))
    assert reason.field == field


@pytest.mark.parametrize("part", ["front:danger", "front:firm", "front:home"])
def test_every_part_of_the_front_has_a_field(part):
    (reason,) = refused(Paper(front=300, heights={part: 99.0}))
    assert reason.field.split(".")[0] in ("region", "firm")


def test_no_side_is_ever_set_smaller_than_allowed():
    tiny = replace(unfitted(), front=Setting(A6.sides["front"].least))
    paper = Paper(front=500, back=500, heights={"reset": 99.0, "front:firm": 99.0})
    assert not isinstance(fitted(tiny, paper), Card)
    assert len(paper.trials) == 1
