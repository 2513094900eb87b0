from dataclasses import replace
from datetime import date

import pytest

from demo.load import _home, _written
from kb.facts import GaugeMarks, Known
from kb.handover.known import told_of
from kb.handover.learnt import record_after
from kb.register import Alarm, Appliance, Person, Record, home_in, mistakes_in
from tests.kb.handover.records import FORM, KEY, TODAY, state

OLD = Record(KEY, (Appliance("old", "marlpit-c", serial="OLD-1", serviced=date(2020, 5, 1), fitted=date(2009, 5, 1)),))


def test_a_new_home_learns_everything_the_card_needs() -> None:
    home = home_in(record_after(state(), KEY, None))
    assert (home.key, home.range, home.appliance) == (KEY, "marlpit-c", "Marlpit C 28")
    assert (home.fitted, home.next_service) == (TODAY, date(2027, 11, 25))
    assert home.known.marks == GaugeMarks(0.8, 1.2, 1.8)
    assert home.known.facts["filling-loop"] == "keyed"
    assert home.known.facts["hot-water"] == "combi"
    assert home.places["stop-tap"] == "under the sink"
    assert set(home.places) == {"gas-valve", "stop-tap", "switch", "filling-loop", "condensate-end"}


def test_the_register_learns_the_appliance_and_the_alarm() -> None:
    after = record_after(state(warranty_ends="2033-11-25", co_alarm_ends="2033-01-31"), KEY, None)
    assert after.appliances == (
        Appliance(
            "Marlpit C 28", "marlpit-c", "natural-gas", "combi", "0001", TODAY, date(2033, 11, 25), None,
            date(2027, 11, 25),
        ),
    )  # fmt: skip
    assert after.alarms == (Alarm("co", "beside the boiler", date(2033, 1, 31)),)
    assert mistakes_in(after, TODAY) == ()


@pytest.mark.parametrize(
    "written", [each for each in _written() if "revoked" not in each], ids=lambda each: each["key"]
)
def test_what_is_known_of_a_home_comes_back_as_it_was(written) -> None:
    home = _home(written)
    before = Record(
        home.key,
        (
            Appliance(
                home.appliance, home.range, "natural-gas", None, "SN 1", home.fitted, None, None, home.next_service
            ),
        ),
        home.known,
        home.places,
    )
    told = told_of(FORM, before)
    after = home_in(record_after(state(dict(told)), home.key, before))
    assert dict(after.known.facts) == {"fuel": "natural-gas", **home.known.facts}
    assert after.known.marks == home.known.marks
    assert dict(after.places) == dict(home.places)
    assert (after.range, after.appliance) == (home.range, home.appliance)
    assert (after.fitted, after.next_service) == (home.fitted, home.next_service)


def test_what_is_not_asked_stays() -> None:
    people, address = (Person("Any Body"),), None
    known = Known({"tenure": "rent"}, limits={"reset": 1})
    alarms = (Alarm("smoke", "hall"), Alarm("co", "cellar", date(2030, 1, 1)), Alarm("co", "loft"))
    before = Record(KEY, (*OLD.appliances, Appliance("Emberglow 4", kind="fire")), known, {}, address, people, alarms)
    after = record_after(state(), KEY, before)
    assert after.known.facts["tenure"] == "rent"
    assert after.known.limits == {"reset": 1}
    assert after.people == people
    assert after.appliances[1] == Appliance("Emberglow 4", kind="fire")
    # The first carbon monoxide alarm is the one that was looked at; its day stays unless another was written.
    assert after.alarms == (alarms[0], Alarm("co", "beside the boiler", date(2030, 1, 1)), alarms[2])


def test_an_alarm_that_was_not_found_is_not_forgotten() -> None:
    before = replace(OLD, alarms=(Alarm("co", "cellar"),))
    assert record_after(state(co_alarm="no"), KEY, before).alarms == before.alarms


def test_another_appliance_takes_nothing_over_from_the_one_before() -> None:
    known = Known({"meter": "credit", "filling-loop": "hose", "controls": "wired"}, limits={"reset": 1})
    before = replace(OLD, known=known, places={"filling-loop": "old hose", "stop-tap": "in the porch"})
    after = record_after(state(filling_loop_place="", stop_tap_place=""), KEY, before)
    assert (after.appliances[0].serial, after.appliances[0].serviced) == ("0001", None)
    assert (after.appliances[0].fitted, after.appliances[0].kind) == (TODAY, "combi")
    assert "filling-loop" not in after.places
    assert after.places["stop-tap"] == "in the porch"
    assert after.known.limits == {"reset": 1}


@pytest.mark.parametrize(("serial", "kept"), [("0001", True), ("OLD-1", False), ("", False)])
def test_the_serial_number_says_whether_it_is_the_same_appliance(serial: str, kept: bool) -> None:
    before = replace(OLD, appliances=(replace(OLD.appliances[0], serial=serial),))
    assert (record_after(state(), KEY, before).appliances[0].serviced is not None) is kept


def test_a_home_that_is_no_longer_filled_has_no_filling_loop() -> None:
    before = Record(
        KEY,
        (Appliance("Marlpit C 28", "sedgebrook"),),
        Known({"system": "sealed", "filling-loop": "hose"}),
        {"filling-loop": "under the boiler"},
    )
    after = record_after(state(range="sedgebrook", system="vented"), KEY, before)
    assert "filling-loop" not in after.places
    assert "filling-loop" not in after.known.facts


def test_a_pipe_that_is_no_longer_there_ends_nowhere() -> None:
    before = Record(KEY, (Appliance("Marlpit C 28", "marlpit-c", serial="0001"),), places={"condensate-end": "drain"})
    assert "condensate-end" not in record_after(state(condensate="none", condensate_end=""), KEY, before).places
