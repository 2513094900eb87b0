"""What every end must say, whatever home it is read in: its own words, its region's order and what it shares.

The lines are common practice for waiting without heat, with the fire and rescue services' pages on portable heaters
and the UK Health Security Agency's 18 degrees (all checked 2026-11-25).
"""

from collections.abc import Iterator
from itertools import product
from pathlib import Path

import pytest

from kb.article import Audience, End, Pace
from kb.library import load

LIBRARY = load(Path(__file__).parents[2] / "articles/en")
ENDS = {end.anchor: end for end in LIBRARY.ends() if end.audience is Audience.HOUSEHOLD}

NO_OVEN = "Never heat a room with an oven, a hob or a barbecue."
NO_STOVE = "Never bring in a camping stove, a camping heater or a patio heater."
IN_THE_WALL = "Plug it straight into the wall"
CLEAR = "one metre clear of everything"
ASLEEP = "Turn it off before you sleep"
OUTSIDE = "If you smell gas, feel ill, or an alarm sounds, go outside first."
SOONER = "Say so when you ring. You can be seen sooner."
NO_RESET = "Do not press reset"
CYLINDER = "Leave that heater off if the cylinder leaked, got too hot, or may be frozen."
FROZEN = "Cut the power only if you were told to, or if a pipe or tank is frozen."
SIXTEEN = "below 16 degrees"
POWER = "Say so when you ring, and how long its battery lasts."
ROOM = "aim for 18 degrees"

HEATER = (NO_OVEN, NO_STOVE, IN_THE_WALL, CLEAR, ASLEEP, ROOM)
SAID = {
    "turn-it-off-and-call-now": (
        *HEATER,
        NO_RESET,
        "Go outside at once if you smell gas",
        "even if the house gets cold",
    ),
    "water-or-steam-make-it-safe": (NO_RESET, "The tank can fall", "Leave the cold water on", "Do not poke it"),
    "electrics-make-it-safe": (POWER, NO_OVEN, "not candles", "Do not try the switch again"),
    "leave-it-off": (*HEATER, OUTSIDE, SOONER, NO_RESET, SIXTEEN, "Only an engineer may"),
    "an-engineer-today": (*HEATER, OUTSIDE, SOONER, NO_RESET, SIXTEEN, FROZEN, "water near electrics"),
    "stop-here": (*HEATER, OUTSIDE, SOONER, "faint or short of breath", "Do not climb"),
    "call-your-landlord": (*HEATER, OUTSIDE, SOONER, SIXTEEN, "ring the emergency numbers first"),
    "call-your-energy-supplier": (*HEATER, SOONER, "Leave the meter's button alone", "go outside first"),
    "call-your-fuel-supplier": (*HEATER, SOONER, "do not warm them", "for two hours after it", "go outside first"),
    "call-the-power-cut-line": (POWER, NO_OVEN, "not candles", "Stay away from fallen wires"),
    "no-gas-in-the-street": (*HEATER, "They say when you may use gas", "go outside first"),
    "an-engineer-within-three-days": (*HEATER, OUTSIDE, SOONER, "Do not loosen, tighten or take off"),
    "book-a-visit": (OUTSIDE, "Do not loosen, tighten or take off"),
    "a-question-for-your-supplier": (OUTSIDE, "Does the meter move with all gas off?"),
    "it-is-working-again": (OUTSIDE, NO_RESET),
    "that-is-done": (OUTSIDE, "Never take a cover off"),
    "nothing-is-wrong": (OUTSIDE, "Never take a cover off"),
    "carry-on": ("Stop at once if you smell gas",),
}


def homes() -> Iterator[dict[str, str]]:
    for water, tenure in product(("", "combi", "cylinder", "unvented"), ("", "own", "rent")):
        yield {fact: value for fact, value in (("hot-water", water), ("tenure", tenure)) if value}


def words(end: End, home: dict[str, str]) -> str:
    """Everything on an end's page that is not the region's order, in one line."""
    blocks = (*end.body, *(block for passage in LIBRARY.passages(end, home) for block in passage.body))
    return " ".join(" ".join(block.text.split()) for block in blocks)


@pytest.mark.parametrize("anchor", [anchor for anchor, end in ENDS.items() if end.pace is not Pace.LEAVE])
def test_no_home_misses_a_line_that_keeps_it_safe(anchor: str) -> None:
    for home in homes():
        lacking = [line for line in SAID[anchor] if line not in words(ENDS[anchor], home)]
        assert not lacking, home


@pytest.mark.parametrize("end", [end for end in ENDS.values() if end.pace is Pace.LEAVE], ids=lambda end: end.anchor)
def test_whoever_must_leave_reads_nothing_for_people_indoors(end: End) -> None:
    for home in homes():
        assert "go back in" in words(end, home) or "go back into" in words(end, home)
        assert {passage.anchor for passage in LIBRARY.passages(end, home)} == {"if-you-cannot-hear-the-emergency-line"}


def test_a_heater_in_a_cylinder_comes_with_its_caution() -> None:
    for end in ENDS.values():
        for home in homes():
            said = words(end, home)
            assert ("That heats the water" in said) <= (CYLINDER in said)


def test_a_combi_reads_nothing_of_a_cylinders_heater() -> None:
    assert "That heats the water" not in words(ENDS["an-engineer-today"], {"hot-water": "combi"})
    assert "That heats the water" in words(ENDS["an-engineer-today"], {})


def test_tenants_and_landlords_read_their_own_words() -> None:
    rents, owns = (words(ENDS["an-engineer-today"], {"tenure": tenure}) for tenure in ("rent", "own"))

    assert "Tell your landlord or the agent today" in rents
    assert "The repair is yours to order" not in rents
    assert "The repair is yours to order" in owns
    assert "Tell your landlord or the agent today" not in owns
