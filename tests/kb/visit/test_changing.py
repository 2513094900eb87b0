from kb.facts import GaugeMarks, Known
from kb.home import Home
from kb.register import Appliance, Record
from kb.visit.changing import known_now, learnt, with_learnt
from tests.kb.visit.building import PLAIN, say

KNOWN = Known({"system": "sealed", "filling-loop": "hose", "controls": "wired"}, GaugeMarks(0.9, 1.3, 1.9))
HOME = Home("a key", "any", "Any 20", KNOWN, {"stop-tap": "under the sink"})
CHANGED = {**PLAIN, "card": "changed", "card-words": "new loop"}


def test_a_form_begins_with_what_is_known() -> None:
    now = known_now(say(PLAIN), HOME)
    assert now["loop"] == "hose"
    assert (now["mark-low"], now["stop-tap-place"]) == ("0.9", "under the sink")
    assert "switch-place" not in now


def test_only_what_is_otherwise_is_learnt() -> None:
    said = say(CHANGED, loop="keyed", controls="wired", mark_low="0.9", mark_aim="1.4", switch_place="in the hall")
    assert learnt(said, HOME) == {"fact:filling-loop": "keyed", "mark:aim": 1.4, "place:switch": "in the hall"}


def test_nothing_is_learnt_where_the_card_is_right() -> None:
    assert learnt(say(PLAIN, loop="keyed"), HOME) == {}


def test_a_home_keeps_what_nobody_spoke_of() -> None:
    record = Record("a key", (Appliance("Any 20", "any"),), KNOWN, HOME.places)
    after = with_learnt(record, {"fact:filling-loop": "keyed", "mark:aim": 1.4, "place:switch": "in the hall"})
    assert after.known.facts == {"system": "sealed", "filling-loop": "keyed", "controls": "wired"}
    assert after.known.marks == GaugeMarks(0.9, 1.4, 1.9)
    assert after.places == {"stop-tap": "under the sink", "switch": "in the hall"}
    assert after.appliances == record.appliances
