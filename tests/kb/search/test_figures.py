import pytest

from kb.search.figures import load_figures
from kb.search.text import clauses

FIGURES = load_figures()


def concepts(text: str) -> set[str]:
    return {word[1:] for clause in FIGURES.read(clauses(text)) for word in clause if word.startswith("=")}


@pytest.mark.parametrize(
    ("text", "concept"),
    [
        ("it says 0.3 bar", "bar-low"),
        ("half a bar", "bar-low"),
        ("1.4bar", "bar-usual"),
        ("nearly 3 bar", "bar-high"),
        ("5 psi", "bar-low"),
        ("32 psi", "bar-high"),
        ("the gauge is on zero", "bar-low"),
        ("pressure went up to 3.1", "bar-high"),
        ("minus 4 last night", "frost-figure"),
        ("-4c last night", "frost-figure"),
        ("20f outside", "frost-figure"),
        ("31 degrees in my room", "warm-room-figure"),
        ("80 degrees in the house", "warm-room-figure"),
        ("boiler at 92 degrees", "very-hot-figure"),
        ("boiler reaches 95", "very-hot-figure"),
        ("£40", None),
        ("30p", "bill"),
        ("500 kwh", "bill"),
    ],
)
def test_a_figure_with_its_unit_says_something(text, concept):
    assert concepts(text) == ({concept} if concept else set())


@pytest.mark.parametrize(
    "text",
    ["3 radiators", "pressure dropped 3 times", "drops by 1 degree", "room 2", "5 am", "version 1.2.3", "²", "at 3"],
)
def test_other_figures_say_nothing(text):
    assert concepts(text) == set()


def test_a_gauge_named_anywhere_gives_a_bare_figure_its_unit():
    assert concepts("pressure is odd, it reads 0.2") == {"bar-low"}
    assert concepts("it reads 2") == set()


@pytest.mark.parametrize(
    ("text", "concept"),
    [("topped up to 1.5 on Monday", "bar-usual"), ("0.6 today", "bar-low"), ("it is 3.2 and dripping", "bar-high")],
)
def test_a_figure_to_a_tenth_is_a_pressure_even_alone(text, concept):
    assert concept in concepts(text)


@pytest.mark.parametrize("text", ["2.5 hours", "about 1.5 litres", "3.30", "0.04 seconds", "version 2.1"])
def test_a_figure_to_a_tenth_beside_another_unit_is_no_pressure(text):
    assert not concepts(text) & {"bar-low", "bar-usual", "bar-high"}


def test_a_bare_figure_in_a_room_is_its_warmth():
    assert concepts("20 in the kitchen") >= {"room-figure"}
    assert "room-figure" not in concepts("20 in the morning")
