"""Words that ends share: who reads them, and for which homes."""

import pytest

from kb.article import Audience, End
from kb.library import Library, build
from kb.notation import read_article
from kb.prose import Target
from kb.rules import check
from tests.builders import TODAY, article, library
from tests.kb.rules.libraries import found_by

WAITING = """
# While you wait

## For the household

### Keep warm

Close the doors.

{fact=hot-water is="cylinder unvented"}
### Hot water from a cylinder

Use its own heater.

## For the engineer

### Lend a heater

Sign it out.
"""

ENDS = """
# Where a path ends

## For the household

{pace=today call=firm}
### Call us

We come today.

- [Keep warm](waiting.md#keep-warm)
- [Hot water](waiting.md#hot-water-from-a-cylinder)
"""


def home_of_passages(ends: str = ENDS) -> tuple[Library, End]:
    made = build([article("ends", ends, "ends"), article("waiting", WAITING, "passages")])
    return made, next(made.ends())


def titles(facts: dict[str, str]) -> list[str]:
    made, end = home_of_passages()
    return [passage.title for passage in made.passages(end, facts)]


def test_a_closing_list_of_links_is_shared_and_no_text() -> None:
    _, end = home_of_passages()

    assert [block.text for block in end.body] == ["We come today."]
    assert end.shares == (Target("waiting", "keep-warm"), Target("waiting", "hot-water-from-a-cylinder"))


def test_a_home_that_is_not_known_reads_every_passage() -> None:
    assert titles({}) == ["Keep warm", "Hot water from a cylinder"]


def test_a_home_that_a_passage_is_for_reads_it() -> None:
    assert titles({"hot-water": "unvented"}) == ["Keep warm", "Hot water from a cylinder"]


def test_a_home_that_a_passage_is_not_for_is_spared_it() -> None:
    assert titles({"hot-water": "combi"}) == ["Keep warm"]


def test_a_fact_that_could_not_be_told_hides_nothing() -> None:
    assert titles({"hot-water": ""}) == ["Keep warm", "Hot water from a cylinder"]


def test_an_engineers_passage_is_never_shown_by_an_end_for_households() -> None:
    made, end = home_of_passages(ENDS.replace("[Keep warm](waiting.md#keep-warm)", "[Lend](waiting.md#lend-a-heater)"))

    assert "Lend a heater" not in [passage.title for passage in made.passages(end, {})]
    assert [finding.rule for finding in found_by("engineers-only", made)] == ["engineers-only"]


def test_an_engineer_may_read_what_households_read() -> None:
    made, _ = home_of_passages()

    assert made.passage(Target("waiting", "keep-warm"), Audience.ENGINEER) is not None


@pytest.mark.parametrize("braces", ["{fact=tenure}", "{is=rent}", "{fact=tenure is=castle}", "{tries=reset}"])
def test_braces_that_mean_nothing_on_a_passage_are_found(braces: str) -> None:
    text = WAITING.replace('{fact=hot-water is="cylinder unvented"}', braces)
    _, findings = read_article("waiting.md", HEADER + text)

    assert {finding.rule for finding in findings} == {"unknown-brace"}


HEADER = f"---\ntitle: While you wait\nkind: passages\nreviewed: {TODAY}\nsources: [common practice]\n---\n"


def test_a_forbidden_act_is_found_in_a_passage_too() -> None:
    text = WAITING.replace("Close the doors.", "Open the case of the boiler.")
    made = build([*library().articles.values(), article("waiting", text, "passages")])

    assert [f.place.file for f in check(made, TODAY) if f.rule == "forbidden-act"] == ["waiting.md"]
