"""Every law of the safety proof, broken on purpose."""

from pathlib import Path

import pytest

from kb.guide import Guide, State
from kb.library import build, load
from kb.proof import Proof, prove
from tests.builders import ENDS, TRIED, article, library, region

GOOD = """
# It will not light

## For the household

{tries=reset at-most=2 then="ends.md#call-us"}
### Reset it

- [It runs](ends.md#it-works)
- [It stopped again](#reset-it)

## For the engineer

### Measure it

- [Good](ends.md#job-closed)
"""


def told(proof: Proof) -> str:
    return "\n".join(str(finding) for finding in proof.findings)


def broken(text: str) -> str:
    return told(prove(library(broken=text)))


def test_a_sound_library_is_proved_with_its_count_of_walks() -> None:
    proof = prove(library(wont_light=GOOD))

    assert proof.findings == ()
    assert proof.walks > 20
    assert proof.states > 10


def test_a_walk_is_counted_once_for_each_way_to_its_end() -> None:
    one = "# One\n\n## For the household\n\n### Ask\n\n- [Yes](ends.md#it-works)\n- [No](ends.md#call-us)\n"

    counted = prove(library(one=one)).walks - prove(library()).walks

    # Two leave at a danger question and two reach the article: four walks, with limits and without.
    assert counted == 8


def test_a_value_a_home_may_bring_along_is_walked_too() -> None:
    asks = (
        "# One\n\n## For the household\n\n{{fact=system}}\n### Ask\n\n"
        "- [Yes](ends.md#it-works){{is=sealed}}\n- [No]({}){{is=vented}}\n"
    )

    assert "#hidden leads nowhere" in broken(
        asks.format("#hidden") + "\n## For the engineer\n\n### Hidden\n\n- [Done](ends.md#job-closed)\n"
    )
    assert broken(asks.format("ends.md#call-us")) == ""


def test_a_household_never_comes_to_an_engineers_step() -> None:
    text = (
        "# Broken\n\n## For the household\n\n### Go on\n\n- [Yes](#hidden)\n\n"
        "## For the engineer\n\n### Hidden\n\n- [Done](ends.md#job-closed)\n"
    )

    assert "leads nowhere that the household may go" in broken(text)


def test_no_walk_begins_without_the_danger_questions() -> None:
    books = build([article("tried", TRIED, "shared"), article("ends", ENDS, "ends")], [region()])

    assert "no danger questions" in told(prove(books))


def test_every_walk_ends() -> None:
    text = "# Broken\n\n## For the household\n\n### Ask\n\n- [Again](#ask)\n- [Enough](ends.md#call-us)\n"

    assert "for ever" in broken(text)


def test_a_loop_of_used_up_limits_is_seen() -> None:
    text = (
        "# Broken\n\n## For the household\n\n"
        '{tries=reset at-most=1 then="#ask"}\n'
        "### Reset it\n\n- [Ran](ends.md#it-works)\n\n"
        "### Ask\n\n- [Again](#reset-it)\n"
    )

    assert "for ever" in broken(text)


def test_every_walk_says_whom_to_call() -> None:
    assert "without an end" in broken("# Broken\n\n## For the household\n\n### Ask\n\nNothing to answer.\n")


def test_a_link_to_nowhere_is_seen() -> None:
    text = "# Broken\n\n## For the household\n\n### Ask\n\n- [On](ends.md#no-such-end)\n"

    assert "ends.md#no-such-end leads nowhere" in broken(text)


def test_nothing_limited_is_offered_once_more(monkeypatch: pytest.MonkeyPatch) -> None:
    def forgets(guide: Guide, state: State, step: object) -> int:
        return 0

    monkeypatch.setattr(Guide, "used", forgets)
    once = GOOD.replace("- [It stopped again](#reset-it)\n", "- [It stopped again](ends.md#call-us)\n")

    assert "reset is offered after" in broken(once)


def test_an_end_that_says_leave_has_an_order_of_actions() -> None:
    ends = ENDS.replace(" emergency=gas-smell", "")
    books = library()
    books = build([*(a for a in books.articles.values() if a.id != "ends"), article("ends", ends, "ends")], [region()])

    assert "without the order of actions" in told(prove(books))


def test_the_real_articles_are_proved() -> None:
    proof = prove(load(Path(__file__).parents[2] / "articles/en"))

    assert told(proof) == ""
    assert proof.walks > 1_000_000
