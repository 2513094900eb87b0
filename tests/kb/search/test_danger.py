import pytest

from kb.search.evidence import dangers
from kb.search.figures import load_figures
from kb.search.reader import Reader
from kb.search.vocabulary import load

VOCABULARY = load()
READER = Reader(VOCABULARY, load_figures())


def seen(text: str) -> tuple[str, ...]:
    return dangers(READER.read(text), VOCABULARY)


@pytest.mark.parametrize(
    "text",
    [
        "smell of gas",
        "I can smel gass",
        "GAS SMELL!!!!",
        "whiff of rotten eggs",
        "hissing by the meter",
        "the gas pipe is leaking",
        "odd smell from the boiler cupboard",
        "boiler won't light and it smells funny",
        "smells of propane near the tank",
        "my partner can't smell it but I smell gas",
        "drilled into the gas pipe",
        "a digger has pulled up the yellow pipe",
        "hiss from the regulator on the bottle",
        "pipe hissing outside",
        "hob left on with no flame overnight",
    ],
)
def test_a_smell_of_gas_is_a_danger(text):
    assert "gas-smell" in seen(text)


@pytest.mark.parametrize(
    "text",
    [
        "CO alarm",
        "co alarm chirps",
        "carbon monoxid detector",
        "carbon dioxide alarm sounding",
        "we all have headaches",
        "feeling dizzy when the heating is on",
        "cat is ill and so am I",
        "yellow flame",
        "the pilot has gone orange",
        "soot above the fire",
        "fumes in the kitchen",
        "an alarm keeps beeping",
        "boiler is smoking",
        "thumping heads all round",
        "she comes over all woozy by the fire",
        "a little white box keeps chirping",
        "the detector is lit up",
        "grandad is confused and floppy",
        "the parrot died",
    ],
)
def test_signs_of_carbon_monoxide_are_a_danger(text):
    assert "carbon-monoxide" in seen(text)


@pytest.mark.parametrize(
    ("text", "danger"),
    [
        ("burning smell from the boiler", "fire"),
        ("sparks from the switch", "fire"),
        ("got a shock off the boiler", "electric"),
        ("water dripping onto the fuse box", "electric"),
        ("steam pouring out", "water-steam"),
        ("hot water from the cold tap", "water-steam"),
        ("the ceiling is bulging", "water-steam"),
        ("boiler switch crackles", "electric"),
        ("the plug has melted", "electric"),
        ("water dripping through the light fitting", "electric"),
        ("bare wires behind it", "electric"),
        ("water trickling down onto the switch", "electric"),
        ("flames licking out of it", "fire"),
        ("steam", "water-steam"),
        ("boiling water shooting out of the pipe", "water-steam"),
    ],
)
def test_fire_shock_and_scalding_are_dangers(text, danger):
    assert danger in seen(text)


@pytest.mark.parametrize(
    "text",
    [
        "gas bill too high",
        "gas safety certificate",
        "the gas engineer came",
        "no smell of gas, boiler won't light",
        "I can't smell gas but it won't light",
        "alarm clock and heating timer",
        "burglar alarm keeps beeping",
        "sick of this boiler",
        "pilot keeps going out",
        "small leak under the sink",
        "boiler alarm light",
        "gas boiler leaking water",
        "steam from the flue outside",
        "headline",
        "stain on the ceiling below the boiler",
        "pipes frozen",
        "not a peep out of it",
        "banging noise does my head in",
        "energy monitor shows a lot",
        "black sludge in the radiators",
        "breaker trips when the boiler fires",
    ],
)
def test_harmless_words_are_no_danger(text):
    assert seen(text) == ()


def test_the_most_pressing_danger_comes_first():
    assert seen("headache, a burning smell, and I smell gas") == ("gas-smell", "carbon-monoxide", "fire")


def test_danger_is_seen_whatever_else_was_typed():
    assert "gas-smell" in seen("the bill was high last year. " * 300 + "oh, and I smell gas")


def test_words_far_apart_do_not_make_a_danger_together():
    assert seen("a leak. it was long ago. we had it mended. the gas is cheap") == ()


def test_no_everyday_phrase_uses_up_the_words_of_a_danger():
    assert "electric" in seen("which switch crackles")
    assert "carbon-monoxide" in seen("flashing red and the alarm is on")
