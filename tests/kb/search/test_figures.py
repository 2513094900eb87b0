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
    assert concepts("it reads 0.2") == set()
