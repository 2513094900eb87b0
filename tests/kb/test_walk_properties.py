"""What holds for every walk of every library that the checker would let through."""

from hypothesis import given
from hypothesis import strategies as st

from kb.article import Audience, End, Step
from kb.facts import FACTS, Known
from kb.guide import Trouble
from kb.library import Library
from kb.proof import prove
from kb.walk import LONGEST, walk
from tests.builders import library

TARGETS = ("ends.md#call-us", "ends.md#it-works")


@st.composite
def libraries(draw: st.DrawFn) -> Library:
    """Two articles of a few steps that lead forward, or back to a limited step, with engineers' steps between."""
    size = draw(st.integers(1, 4))
    return library(**{name: draw(articles(name, size)) for name in ("first", "second")})


@st.composite
def articles(draw: st.DrawFn, name: str, size: int) -> str:
    steps = [draw(household_steps(name, number, size)) for number in range(size)]
    engineers = "\n### Measure\n\n- [Good](ends.md#job-closed)\n"
    return f"# Article {name}\n\n## For the household\n{''.join(steps)}\n## For the engineer\n{engineers}"


@st.composite
def household_steps(draw: st.DrawFn, name: str, number: int, size: int) -> str:
    ahead = [f"#{name}-{later}" for later in range(number + 1, size)] or list(TARGETS)
    if name == "first":
        ahead.append("second.md")
    limited = number == 0
    back = [f"#{name}-0"] if number else ahead
    answers = draw(st.lists(st.sampled_from([*ahead, *TARGETS, *back]), min_size=1, max_size=3))
    if limited:
        braces = '{tries=reset at-most=2 then="ends.md#call-us"}'
        lines = [f"- [Answer {place}]({target})" for place, target in enumerate(answers)]
    else:
        fact = draw(st.sampled_from(["system", "fuel"]))
        braces = f"{{fact={fact}}}"
        values = [*FACTS[fact], None]
        lines = [
            f"- [Answer {place}]({target})" + (f"{{is={values[place]}}}" if values[place] else "")
            for place, target in enumerate(answers)
        ]
    return f"\n{braces}\n### {name.title()} {number}\n\n" + "\n".join(lines) + "\n"


@given(libraries(), st.data())
def test_every_walk_ends_and_no_household_sees_an_engineers_step(books: Library, data: st.DataObject) -> None:
    start = data.draw(st.sampled_from([books.articles["first"].steps[0], books.articles["second"].steps[0]]))
    facts = {
        fact: data.draw(st.sampled_from(list(FACTS[fact])))
        for fact in data.draw(st.sets(st.sampled_from(["system", "fuel"])))
    }
    trail = "none"
    for _ in range(LONGEST):
        standing = walk(books, start, trail, Known(facts))
        assert standing.trouble is None
        assert standing.at.audience is Audience.HOUSEHOLD
        assert all(taken.step.audience is Audience.HOUSEHOLD for taken in standing.taken)
        if isinstance(standing.at, End):
            assert standing.at.pace
            assert standing.at.call
            return
        trail = standing.trail_with(data.draw(st.sampled_from(standing.at.answers)))
    raise AssertionError(f"no end after {LONGEST} answers: {trail}")


@given(libraries())
def test_the_proof_finds_nothing_in_them(books: Library) -> None:
    assert prove(books).findings == ()


@given(libraries(), st.text(max_size=80))
def test_no_trail_raises(books: Library, trail: str) -> None:
    start = books.articles["first"].steps[0]
    standing = walk(books, start, trail)

    assert isinstance(standing.at, Step | End)
    assert standing.trouble is None or isinstance(standing.trouble, Trouble)


@given(libraries(), st.data())
def test_a_trail_leads_where_it_says_it_leads(books: Library, data: st.DataObject) -> None:
    start = books.articles["first"].steps[0]
    standing = walk(books, start, "none")
    while isinstance(standing.at, Step):
        standing = walk(books, start, standing.trail_with(data.draw(st.sampled_from(standing.at.answers))))

    assert walk(books, start, standing.trail) == standing
