"""What the panel must say is the core that published orders for a smell of gas share.

Outside source: each line's own `source` in the region's profile, and Gas Safety (Management) Regulations 1996,
regulation 7, for the one number of Great Britain.
"""

from datetime import date, timedelta

import pytest

from kb.card.danger import danger_of
from kb.card.value import Danger, Sign
from tests.builders import TODAY, firm
from tests.kb.card.cards import REGIONS, gb

PROFILES = sorted(path.stem for path in REGIONS.glob("*.toml"))


def panel(profile=None, fuel="natural-gas", **changes):
    chosen = profile or gb()
    return danger_of(firm(**{"region": chosen.code, **changes}), chosen, fuel, TODAY)


def fields(found):
    assert not isinstance(found, Danger)
    return [reason.field for reason in found]


def without(words):
    region = gb()
    lines = tuple(line for line in region.orders["gas-smell"] if words not in line.do)
    return region.model_copy(update={"orders": {**region.orders, "gas-smell": lines}})


@pytest.mark.parametrize("name", PROFILES)
def test_every_region_says_no_flames_no_switches_get_out_ring_from_outside(name):
    found = panel(gb(name))
    assert [line.sign for line in found.lines] == [Sign.PROHIBITION, Sign.PROHIBITION, Sign.SAFE]
    assert "flames" in found.lines[0].words
    assert "switch" in found.lines[1].words
    assert "out" in found.lines[2].words
    assert found.calls[0].when == "From outside, ring"
    assert found.last.startswith("Stay out")


def test_the_numbers_are_those_that_were_confirmed_not_the_regions():
    confirmed = [
        {"kind": "gas", "number": "01632 960199", "confirmed": TODAY, "by": "engineer"},
        {"kind": "emergency", "number": "112", "confirmed": TODAY, "by": "engineer"},
    ]
    assert [call.number for call in panel(emergency=confirmed).calls] == ["01632 960199", "112"]


def test_one_number_for_both_is_printed_once():
    confirmed = [{"kind": kind, "number": "112", "confirmed": TODAY, "by": "x1"} for kind in ("gas", "emergency")]
    assert [call.number for call in panel(gb("neutral"), emergency=confirmed).calls] == ["112"]


def test_a_home_on_lpg_is_told_of_the_number_on_its_tank():
    assert "tank or bottles" in panel(fuel="lpg").calls[0].who
    assert "tank" not in panel(fuel="natural-gas").calls[0].who


def test_a_home_on_oil_is_asked_about_oil_and_fumes_and_told_to_ring_the_firm_too():
    # The gas emergency service does not make oil safe: the end for an oil home names the firm (common practice).
    assert "fumes" in panel(fuel="oil").title
    assert "oil" in panel(fuel="oil").title
    assert "for oil ring us too" in panel(fuel="oil").calls[0].who
    assert "oil" not in panel(fuel="lpg").calls[0].who


@pytest.mark.parametrize("kind", ["gas", "emergency"])
def test_a_number_that_nobody_confirmed_is_refused(kind):
    confirmed = [each.model_dump() for each in firm().emergency if each.kind != kind]
    assert fields(panel(emergency=confirmed)) == [f"firm.emergency.{kind}"]


@pytest.mark.parametrize(("day", "refused"), [(TODAY, False), (TODAY + timedelta(days=1), True)])
def test_a_confirmation_from_the_future_is_none(day, refused):
    confirmed = [{**each.model_dump(), "confirmed": day} for each in firm().emergency]
    assert isinstance(panel(emergency=confirmed), tuple) is refused


def test_numbers_confirmed_for_another_place_are_refused():
    assert fields(panel(gb("ie"), region="GB")) == ["firm.region"]


@pytest.mark.parametrize(
    ("words", "named"),
    [("flames", "flames"), ("switch", "switches"), ("Get everybody out", "getting out"), ("{gas}", "ring {gas}")],
)
def test_a_region_that_lacks_a_needed_line_is_refused_by_name(words, named):
    (reason,) = panel(without(words))
    assert reason.field == "region.orders.gas-smell"
    assert named in reason.found


def test_every_reason_is_told_at_once():
    found = danger_of(firm(emergency=[], region="IE"), without("flames"), None, date(2026, 1, 1))
    assert fields(found) == ["firm.region", "firm.emergency.gas", "firm.emergency.emergency", "region.orders.gas-smell"]
