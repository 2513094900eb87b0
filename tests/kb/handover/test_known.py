from datetime import date

import pytest

from demo.load import _home, _written
from kb.facts import GaugeMarks, Known
from kb.handover.known import home_after, known_of
from kb.home import Home
from tests.kb.handover.records import FORM, KEY, TODAY, state


def test_a_new_home_learns_everything_the_card_needs() -> None:
    home = home_after(state(), KEY, None)
    assert (home.key, home.range, home.appliance) == (KEY, "marlpit-c", "Marlpit C 28")
    assert (home.fitted, home.next_service) == (TODAY, date(2027, 11, 25))
    assert home.known.marks == GaugeMarks(0.8, 1.2, 1.8)
    assert home.known.facts["filling-loop"] == "keyed"
    assert home.known.facts["hot-water"] == "combi"
    assert home.places["stop-tap"] == "under the sink"
    assert set(home.places) == {"gas-valve", "stop-tap", "switch", "filling-loop", "condensate-end"}


@pytest.mark.parametrize(
    "written", [each for each in _written() if "revoked" not in each], ids=lambda each: each["key"]
)
def test_what_is_known_of_a_home_comes_back_as_it_was(written) -> None:
    home = _home(written)
    after = home_after(state({**known_of(FORM, home), "fitted": "", "next-service": ""}), home.key, home)
    assert dict(after.known.facts) == dict(home.known.facts)
    assert after.known.marks == home.known.marks
    assert dict(after.places) == dict(home.places)
    assert (after.range, after.appliance) == (home.range, home.appliance)


def test_what_is_not_asked_stays() -> None:
    before = Home(KEY, "marlpit-c", "old", Known({"tenure": "rent"}, limits={"reset": 1}))
    after = home_after(state(), KEY, before)
    assert after.known.facts["tenure"] == "rent"
    assert after.known.limits == {"reset": 1}
    assert after.appliance == "Marlpit C 28"


def test_a_home_that_is_no_longer_filled_has_no_filling_loop() -> None:
    before = Home(KEY, "sedgebrook", "old", Known({"system": "sealed"}), {"filling-loop": "under the boiler"})
    after = home_after(state(range="sedgebrook", system="vented"), KEY, before)
    assert "filling-loop" not in after.places
