import pytest

from kb.search.concepts import Recogniser
from kb.search.contrast import verdicts
from kb.search.text import clauses
from kb.search.vocabulary import load

VOCABULARY = load()
RECOGNISER = Recogniser(VOCABULARY)

NO_HEATING = {"heating-ill", "hot-water-well"}
NO_HOT_WATER = {"hot-water-ill", "heating-well"}


def said(text: str) -> set[str]:
    mentions = [RECOGNISER.read(clause) for clause in clauses(text)]
    return {verdict for verdict in verdicts(mentions, VOCABULARY) if not verdict.endswith("-first")}


@pytest.mark.parametrize(
    "text",
    [
        "hot water fine, heating isn't",
        "hot water fine heating isnt",
        "Heating? No. Hot water? Yes.",
        "the heating is dead but the taps are hot",
        "radiators cold hot water ok",
        "got hot water but no heating",
        "hot water works whereas the radiators stay cold",
        "everything works except the heating, hot water too",
        "lost the heating, still have hot water",
    ],
)
def test_the_heating_is_ill_and_the_hot_water_well(text):
    assert said(text) >= NO_HEATING


@pytest.mark.parametrize(
    "text",
    [
        "heating fine, hot water isn't",
        "can't get a hot shower heat is grand",
        "heating works but the shower runs cold",
        "radiators hot, taps cold",
        "we have heating but no hot water",
        "no hot water but the heating is ok",
        "heating ok, hot for a minute and then cold taps",
    ],
)
def test_the_hot_water_is_ill_and_the_heating_well(text):
    assert said(text) >= NO_HOT_WATER


@pytest.mark.parametrize("text", ["no heating or hot water", "no hot water and no heating", "taps cold, rads cold"])
def test_both_are_ill(text):
    assert said(text) == {"heating-ill", "hot-water-ill"}


def test_a_boiler_keeps_for_itself_what_is_said_of_it():
    assert said("the boiler fails when the hot water runs") >= {"boiler-ill"}
    assert "hot-water-ill" not in said("the boiler fails when the hot water runs")


def test_nothing_is_said_of_what_is_only_named():
    assert said("a question about heating") == set()


def test_which_supply_was_named_first_is_kept():
    mentions = [RECOGNISER.read(clause) for clause in clauses("heating only when the hot water is on")]
    assert "heating-first" in verdicts(mentions, VOCABULARY)
