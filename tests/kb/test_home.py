import pytest

from kb.appliance import Display, Make, Range
from kb.facts import GaugeMarks, Known
from kb.home import PLACES, Home, home_limits


def family(**limits: int) -> Range:
    return Range("any", "Any", Make.COMBI, Display.TEXT, limits, (), (), (), "any.md")


def test_everything_wrong_with_a_home_is_told_at_once():
    told = r"no fact 'colour'.*system is 'steam'.*no place 'attic'.*'switch' is empty"
    with pytest.raises(ValueError, match=told):
        Home("K", "any", "Any 20", Known({"colour": "red", "system": "steam"}), {"attic": "up", "switch": " "})


def test_a_home_may_have_every_place():
    assert Home("K", "any", "Any 20", places=dict.fromkeys(PLACES, "here")).places["stop-tap"] == "here"


def test_the_limits_of_the_range_are_known_of_the_home():
    home = Home("K", "any", "Any 20", Known({"system": "sealed"}, GaugeMarks(0.7, 1.0, 1.6)))
    assert home_limits(home, family(reset=1)) == Known({"system": "sealed"}, GaugeMarks(0.7, 1.0, 1.6), {"reset": 1})


@pytest.mark.parametrize(("own", "of_range"), [(1, 2), (2, 1), (1, 1)])
def test_the_stricter_limit_wins(own, of_range):
    home = Home("K", "any", "Any 20", Known(limits={"reset": own}))
    assert home_limits(home, family(reset=of_range)).limits == {"reset": 1}


def test_a_limit_that_only_the_home_has_stays():
    home = Home("K", "any", "Any 20", Known(limits={"top-up": 0}))
    assert home_limits(home, family(reset=2)).limits == {"reset": 2, "top-up": 0}


def test_a_home_says_nothing_about_people():
    assert set(Home.__slots__) == {"key", "range", "appliance", "known", "places", "fitted", "next_service"}
