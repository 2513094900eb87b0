import pytest

from kb.search.concepts import Recogniser
from kb.search.text import clauses
from kb.search.vocabulary import load

RECOGNISER = Recogniser(load())


def named(text: str) -> set[str]:
    return {mention.concept for clause in clauses(text) for mention in RECOGNISER.read(clause)}


@pytest.mark.parametrize("word", ["boiler", "furnace", "combi", "boilers"])
def test_many_words_name_one_thing(word):
    assert named(word) == {"boiler"}


def test_the_longer_phrase_wins_and_uses_up_its_words():
    assert "pilot" in named("the pilot light")
    assert "fault-light" not in named("the pilot light")


def test_a_gap_lets_words_stand_between():
    assert "wont-off" in named("it won't turn that thing off")


def test_a_phrase_may_name_two_things():
    assert {"tank", "hot-water"} <= named("hot water tank")


@pytest.mark.parametrize(
    ("text", "turned"),
    [
        ("the boiler won't come on", "wont-on"),
        ("radiators are not warm", "cold"),
        ("it does not work", "fails"),
        ("heating can't be turned off", "wont-off"),
        ("the pilot never ignites", "wont-light"),
        ("it won't stay on", "goes-out"),
        ("the pressure does not go down", "wont-fall"),
        ("no longer works", "fails"),
    ],
)
def test_a_no_turns_a_state_into_its_opposite(text, turned):
    assert turned in named(text)


@pytest.mark.parametrize(
    ("text", "denied"),
    [
        ("no hot water", "!hot-water"),
        ("there is no gas", "!gas"),
        ("without power", "!power"),
        ("the heating doesn't", "!heating"),
        ("everything except the heating", "!heating"),
    ],
)
def test_a_no_denies_a_thing(text, denied):
    assert denied in named(text)


def test_one_no_is_shared_by_two_supplies():
    assert {"!heating", "!hot-water"} <= named("no heating or hot water")


def test_a_boiler_that_does_not_is_still_a_boiler():
    assert {"boiler", "wont-on"} <= named("neither will the boiler")


def test_some_states_stay_what_they_are_under_a_no():
    assert "bleed" in named("I can't bleed it")


def test_no_reaches_only_so_far():
    assert "hot" in named("not one of the many people who ever lived in this old place said hot")
