"""What the rule says of a few homes' marks holds for every home's."""

from hypothesis import given, settings
from hypothesis import strategies as st

from kb.facts import GaugeMarks
from tests.kb.rules.libraries import alone, found_by

EDGES = st.sampled_from(["low", "aim", "high", '"0.5"', '"2.5"', '"3.0"', '"1.0"'])


@st.composite
def divisions(draw: st.DrawFn) -> str:
    """Answers that divide the gauge at two edges, mostly well."""
    first, second = draw(EDGES), draw(EDGES)
    lower, from_first = draw(st.sampled_from([("below", "from"), ("to", "above"), ("to", "from")]))
    middle, upper = draw(st.sampled_from([("to", "above"), ("below", "from"), ("below", "above")]))
    return f"""
{{reading=pressure}}
### Read the gauge

- [A](ends.md#book-a-visit){{{lower}={first}}}
- [B](ends.md#book-a-visit){{{from_first}={first} {middle}={second}}}
- [C](ends.md#book-a-visit){{{upper}={second}}}
- [I cannot](ends.md#book-a-visit)
"""


@st.composite
def marks(draw: st.DrawFn) -> GaugeMarks:
    """A home's marks to a tenth of a bar, as a dial can be read."""
    low, aim, high = sorted(draw(st.lists(st.integers(6, 24), min_size=3, max_size=3, unique=True)))
    return GaugeMarks(low / 10, aim / 10, high / 10)


@given(divisions(), marks(), st.integers(0, 400))
@settings(max_examples=400, deadline=None)
def test_where_the_rule_is_silent_every_reading_has_one_answer(text: str, home: GaugeMarks, hundredths: int) -> None:
    library = alone(text)
    step = library.articles["alone"].steps[0]
    holding = [answer for answer in step.answers if answer.bounds and answer.bounds.hold(hundredths / 100, home)]

    assert found_by("bounds", library) or len(holding) == 1


def test_the_finding_names_a_reading_and_the_marks() -> None:
    library = alone(
        """
{reading=pressure}
### Read the gauge

- [Low](ends.md#book-a-visit){to=low}
- [High](ends.md#book-a-visit){from=low}
- [I cannot](ends.md#book-a-visit)
"""
    )

    (finding,) = found_by("bounds", library)

    assert finding.found == "0.800 bar belongs to 'Low' and 'High' in a home with the marks 0.8, 1.2 and 1.8."
