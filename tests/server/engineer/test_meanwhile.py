"""What the office changes while an engineer writes is neither lost nor lost sight of."""

import re
from dataclasses import replace
from datetime import date

import pytest

from kb.handover import seal
from kb.register import Alarm, Built
from server.store.register import Did
from tests.server.conftest import MOVED_OUT, SEALED
from tests.server.engineer.conftest import begin, csrf, write
from tests.server.engineer.test_records import latest, stored
from tests.server.engineer.test_signing import filled, sign

KEY = SEALED.key


@pytest.fixture
def registered(site):
    """The home with a serial number, days, and an alarm, as the office keeps it."""

    def more(record):
        first = replace(record.appliances[0], serial="MC-7", fitted=date(2024, 5, 1), warranty_ends=date(2031, 5, 1))
        alarms = (Alarm("co", "beside the boiler", date(2031, 5, 1)),)
        return Built(replace(record, appliances=(first,), alarms=alarms), ())

    assert site.store.register.change(KEY, more, "office") is not None
    return site.store.register


def office(register, **places: str) -> None:
    register.change(KEY, lambda record: Built(replace(record, places={**record.places, **places}), ()), "office")


def decide(engineer, record: str, how: str):
    """Press a button of the first thing that the register says otherwise."""
    page = engineer.get(f"{record}/sign").text
    form = re.search(r'<form class="said question apart".*?</form>', page, re.S)
    assert form
    fields = dict(re.findall(r'name="(csrf|field|register)" value="([^"]*)"', form[0]))
    return engineer.post(f"{record}/decide", data={**fields, how: "1"})


def test_what_the_office_knows_is_filled_in_and_shown_as_from_the_register(engineer, site, registered):
    record = begin(engineer, KEY)
    known = latest(site, record)
    assert (known["serial"], known["fitted"], known["warranty-ends"]) == ("MC-7", "2024-05-01", "2031-05-01")
    assert (known["co-alarm-place"], known["co-alarm-ends"]) == ("beside the boiler", "2031-05-01")
    page = engineer.get(record).text
    assert page.count("From the register.") == len(known)
    write(engineer, record, "serial", "MC-8", 90)
    assert engineer.get(record).text.count("From the register.") == len(known) - 1


def test_with_another_appliance_only_what_the_home_keeps_is_filled_in(engineer, site, registered):
    begun = engineer.post("/engineer/records", data={"csrf": csrf(engineer), "key": KEY, "another": "1"})
    known = latest(site, begun.headers["location"])
    assert {id: text for id, text in known.items() if not id.startswith("seen-")} == {
        "stop-tap-place": "under the kitchen sink",
        "co-alarm-place": "beside the boiler",
        "co-alarm-ends": "2031-05-01",
    }
    assert known["seen-serial"] == "MC-7"


def test_everything_flows_back_when_the_record_is_signed(engineer, registered):
    sign(engineer, filled(engineer, KEY, serial="MC-8", warranty_ends="2033-05-01", co_alarm_place="shelf"))
    after = registered.things(KEY)
    first = after.appliances[0]
    assert (first.serial, first.warranty_ends, first.next_service) == ("MC-8", date(2033, 5, 1), date(2027, 5, 1))
    assert after.alarms == (Alarm("co", "shelf", date(2031, 5, 1)),)
    last = registered.trail(KEY)[-1]
    assert (last.by, last.did) == ("Robin", Did.CHANGED)
    assert {"appliances", "alarms"} <= set(last.fields)


def test_nobody_signs_over_what_the_office_changed_meanwhile(engineer, site, registered):
    record = filled(engineer, KEY)
    office(registered, **{"stop-tap": "in the porch"})
    page = engineer.get(f"{record}/sign").text
    assert "Changed in the register meanwhile" in page
    assert "Take “in the porch”" in page
    assert "Keep “under the sink”" in page
    assert "The register was changed while this was written" in engineer.get(f"{record}/hot-water").text
    assert sign(engineer, record).status_code == 422
    assert stored(site, record).signature is None
    assert registered.things(KEY).places["stop-tap"] == "in the porch"


@pytest.mark.parametrize(("how", "place"), [("take", "in the porch"), ("stand", "under the sink")])
def test_the_engineer_decides_with_one_tap_and_it_is_signed_with_the_record(engineer, site, registered, how, place):
    record = filled(engineer, KEY)
    office(registered, **{"stop-tap": "in the porch"})
    assert decide(engineer, record, how).headers["location"] == f"{record}/sign"
    assert sign(engineer, record).status_code == 303
    assert registered.things(KEY).places["stop-tap"] == place
    assert seal.is_unaltered(stored(site, record))
    said = "under the sink (the register said: in the porch)" in engineer.get(f"{record}/signed").text
    assert said is (how == "stand")


def test_what_was_decided_is_asked_again_when_the_office_changes_it_again(engineer, registered):
    record = filled(engineer, KEY)
    office(registered, **{"stop-tap": "in the porch"})
    decide(engineer, record, "stand")
    office(registered, **{"stop-tap": "in the hall"})
    assert "Take “in the hall”" in engineer.get(f"{record}/sign").text


class Slow:
    """The handover records of a site whose office is quicker than whoever signs."""

    def __init__(self, kept, office) -> None:
        self.kept, self.office = kept, office

    def __getattr__(self, name: str):
        return getattr(self.kept, name)

    def sign(self, *signed):
        self.office()
        return self.kept.sign(*signed)


def test_what_the_office_writes_in_the_last_moment_is_not_lost(engineer, site, registered):
    record = filled(engineer, KEY)
    site.store.handovers = Slow(site.store.handovers, lambda: office(registered, **{"stop-tap": "in the porch"}))
    answer = sign(engineer, record)
    assert "here or in the register" in answer.text
    assert "Take “in the porch”" in answer.text
    assert registered.things(KEY).places["stop-tap"] == "in the porch"


def test_an_appliance_that_is_not_left_in_use_changes_nothing_and_asks_nothing(engineer, registered):
    record = filled(
        engineer, KEY, outcome="unsafe", unsafe_class="at-risk", unsafe_why="Flue", unsafe_off="off",
        unsafe_label="yes", unsafe_notice="yes", unsafe_told="The owner",
    )  # fmt: skip
    office(registered, **{"stop-tap": "in the porch"})
    assert "Take “" not in engineer.get(f"{record}/sign").text
    assert sign(engineer, record).status_code == 303
    assert registered.things(KEY).places["stop-tap"] == "in the porch"


@pytest.mark.parametrize("form", [{"field": "no-such"}, {"field": "pump", "register": "x", "take": "1"}, {}])
def test_only_what_the_register_says_can_be_decided(engineer, site, form):
    record = begin(engineer)
    engineer.post(f"{record}/decide", data={"csrf": csrf(engineer), **form})
    assert stored(site, record).entries == ()


def test_a_signed_record_is_not_laid_beside_the_register_any_more(engineer, site, registered):
    record = filled(engineer, KEY)
    sign(engineer, record)
    office(registered, **{"stop-tap": "in the porch"})
    engineer.post(f"{record}/decide", data={"csrf": csrf(engineer), "field": "serial", "register": "x", "take": "1"})
    page = engineer.get(f"{record}/signed").text
    assert "porch" not in page
    assert "This record was altered" not in page
    assert MOVED_OUT.key not in page
