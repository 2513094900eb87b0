"""Each region's order of actions against what its authorities publish (pages checked 2026-11-25).

GB: the national gas register's steps, as a London borough passes them on, and a Scottish council's other order.
IE: the gas network's steps, read second-hand.
Neutral: the pipeline regulator of the United States, whose list has neither valve nor windows.
Carbon monoxide: the National Health Service (GB), the poisons information centre (IE).
A boiling tank: the Health and Safety Executive's alert (GB); the other regions follow it until theirs is found.
"""

import re
from pathlib import Path

import pytest

from kb.library import load
from kb.region import ORDERS, Region

REGIONS = load(Path(__file__).parents[2] / "articles/en").regions
BEFORE_LEAVING = re.compile(r"\b(valve|windows|turn off)\b")
ON_THE_WAY = re.compile(r"^Only on your way out|only if it is safe")


def order(region: Region, emergency: str) -> list[str]:
    return [region.say(action, {}) for action in region.orders[emergency]]


def place(lines: list[str], pattern: str) -> int:
    found = [number for number, line in enumerate(lines) if re.search(pattern, line, re.IGNORECASE)]
    assert found, f"no line says {pattern!r}: {lines}"
    return found[0]


def test_there_are_the_regions_the_firm_may_choose_from() -> None:
    assert {"GB", "IE", "NI", "ZZ"} <= set(REGIONS)


@pytest.mark.parametrize("region", REGIONS.values(), ids=lambda region: region.code)
def test_what_every_authority_says_of_a_smell_of_gas_is_said(region: Region) -> None:
    # Common to every page read: no flames, no switches either way, everybody out, ring from outside, in that order.
    lines = order(region, "gas-smell")

    said = [
        place(lines, each) for each in ("no flames", "no switch.* on or off", "get everybody out", "from outside, ring")
    ]
    assert said == sorted(said)


@pytest.mark.parametrize("region", REGIONS.values(), ids=lambda region: region.code)
@pytest.mark.parametrize("emergency", ["gas-smell", "carbon-monoxide", "boiling-tank"])
def test_valves_and_windows_are_for_the_way_out_only(region: Region, emergency: str) -> None:
    # The pages disagree whether to shut and open first; the safer line makes both conditional everywhere.
    for line in order(region, emergency):
        if BEFORE_LEAVING.search(line):
            assert ON_THE_WAY.search(line), line


@pytest.mark.parametrize("region", REGIONS.values(), ids=lambda region: region.code)
def test_nobody_is_told_to_turn_gas_on_or_go_back_in(region: Region) -> None:
    for emergency in ORDERS:
        text = " ".join(order(region, emergency)).lower()
        assert not re.search(r"turn(ed)? (the )?gas (back )?on|go back in(?! for| until)|relight", text)
        assert place(order(region, "gas-smell"), "stay out until") > 0


@pytest.mark.parametrize("code", ["GB", "NI"])
def test_british_orders_open_windows_before_the_valve_and_leave_the_gas_off(code: str) -> None:
    lines = order(REGIONS[code], "gas-smell")

    assert (
        place(lines, "windows")
        < place(lines, "valve")
        < place(lines, "from outside, ring")
        < place(lines, "leave the gas off")
    )
    assert any("cellar" in (action.why or "") for action in REGIONS[code].orders["gas-smell"])


def test_the_irish_order_keeps_phones_outside_and_shuts_the_valve_before_leaving() -> None:
    lines = order(REGIONS["IE"], "gas-smell")

    assert (
        place(lines, "phone inside")
        < place(lines, "windows")
        < place(lines, "valve")
        < place(lines, "get everybody out")
    )


def test_the_neutral_order_is_leave_and_call() -> None:
    text = " ".join(order(REGIONS["ZZ"], "gas-smell"))

    assert "windows" not in text
    assert "valve" not in text
    assert "112" in text


@pytest.mark.parametrize("region", REGIONS.values(), ids=lambda region: region.code)
def test_carbon_monoxide_means_out_first_and_never_back_in(region: Region) -> None:
    lines = order(region, "carbon-monoxide")

    assert place(lines, "fresh air") == 0
    assert place(lines, "stay out until") > place(lines, r"ring \d")


@pytest.mark.parametrize("region", REGIONS.values(), ids=lambda region: region.code)
def test_a_boiling_tank_means_nobody_underneath_and_the_cold_water_on(region: Region) -> None:
    # HSE's safety alert on overheated hot water systems: nobody under the tank, the heat off. Common practice: never
    # shut the cold water of a cylinder that is too hot.
    lines = order(region, "boiling-tank")

    assert place(lines, "from under the tank") == 0
    assert place(lines, "turn off the boiler") < place(lines, "leave the cold water on") < place(lines, r"ring \d")
    assert place(lines, "stay out until") == len(lines) - 1


@pytest.mark.parametrize(
    ("code", "kind", "number"),
    [
        # GB: one number for all of it, SI 1996/551 regulation 7 as amended in 2023; the number from public pages.
        ("GB", "gas", "0800 111 999"),
        ("NI", "gas", "0800 002 001"),
        ("IE", "gas", "1800 20 50 50"),
        # Directive (EU) 2018/1972, article 109: 112 beside any national number.
        ("IE", "emergency", "112"),
        ("ZZ", "emergency", "112"),
        ("GB", "emergency", "999"),
    ],
)
def test_numbers_are_the_published_ones(code: str, kind: str, number: str) -> None:
    assert REGIONS[code].numbers[kind].number == number


@pytest.mark.parametrize("region", REGIONS.values(), ids=lambda region: region.code)
def test_every_line_says_how_it_is_known(region: Region) -> None:
    for actions in region.orders.values():
        assert all(action.source and action.checked.year >= 2026 for action in actions)
