import pytest

from kb.article import Audience, End, Step
from kb.library import Library
from kb.prose import Target
from kb.visit.checks import standing, starts, stops
from kb.visit.job import field_of
from tests.kb.desk.calling import real
from tests.kb.visit.building import books

SHELF = books()
(START,) = starts(SHELF, "cold")
PUMP, BOARD, FREE = (Target("cold", each) for each in ("listen-to-the-pump", "look-at-the-board", "free-the-pump"))
SAFE = {"danger": "none"}


def at(**answers: str) -> Step | End:
    named = {field_of(Target("cold", step.replace("_", "-"))): words for step, words in answers.items()}
    return standing(SHELF, START, {**SAFE, **named}).at


def test_the_checks_begin_with_the_danger_questions() -> None:
    assert standing(SHELF, START, {}).at.article == "danger"
    assert standing(SHELF, START, SAFE).at.target == PUMP


def test_a_danger_that_is_answered_yes_leads_to_its_end() -> None:
    smell = field_of(Target("danger", "can-you-smell-gas"))
    assert standing(SHELF, START, {smell: "Yes"}).at.title == "Get out"


def test_answers_lead_along_the_tree() -> None:
    assert at(listen_to_the_pump="It turns").target == BOARD
    assert at(listen_to_the_pump="It turns", look_at_the_board="Burnt").title == "Job closed"


def test_an_answer_of_a_path_that_was_left_again_counts_for_nothing() -> None:
    texts = {**SAFE, field_of(PUMP): "It turns", field_of(FREE): "It turns now"}
    taken = standing(SHELF, START, texts).taken
    assert FREE not in {each.step.target for each in taken}


def test_answers_that_go_round_end_where_they_were() -> None:
    assert at(listen_to_the_pump="It turns", look_at_the_board="Fine").target == PUMP


def test_an_answer_whose_words_have_changed_waits_to_be_given_again() -> None:
    assert at(listen_to_the_pump="It spins").target == PUMP


def walked(stops_: tuple, *answers: str) -> str:
    number = 0
    for words in answers:
        number = stops_[number].onward[words]
    return str(stops_[number].place.title)


def test_the_stops_lead_where_the_walk_leads() -> None:
    found = stops(SHELF, START)
    assert walked(found) == "Listen to the pump"
    assert walked(found, "It is stuck", "Still stuck", "Burnt") == "Job closed"


def test_a_step_that_is_used_up_leads_on_in_the_stops_too() -> None:
    assert walked(stops(SHELF, START), "It is stuck", "Still stuck") == "Look at the board"


LIBRARY: Library = real()
FAULTS = [article.id for article in LIBRARY.faults()]


@pytest.mark.parametrize("fault", FAULTS)
def test_every_way_through_the_real_checks_ends(fault: str) -> None:
    for start in starts(LIBRARY, fault):
        found = stops(LIBRARY, start)
        assert start.audience is Audience.ENGINEER
        assert all(isinstance(stop.place, End) or stop.onward for stop in found)
        assert all(0 <= number < len(found) for stop in found for number in stop.onward.values())
        assert any(isinstance(stop.place, End) for stop in found)


def test_a_field_names_its_step() -> None:
    assert field_of(PUMP).endswith(f"{PUMP.article}#{PUMP.anchor}")
