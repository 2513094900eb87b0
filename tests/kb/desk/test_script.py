import pytest

from kb.article import Audience, End, Step
from kb.desk.call import Branch, Given, read_call
from kb.desk.events import Did
from kb.desk.script import NoSuchFault, places
from kb.desk.unsure import unable_answer, unsure_answer, way_out
from kb.facts import NOTHING_KNOWN, Known
from kb.guide import By
from tests.kb.desk.calling import Told, books, no_to, real

BOOKS, REAL = books(), real()
SEALED = Known({"system": "sealed"})


def begun(article: str = "pressure") -> Told:
    return Told().did(Did.BEGAN, article=article, trail=no_to(BOOKS))


def where(told: Told, known: Known = NOTHING_KNOWN):
    call = read_call(told.events)
    return places(BOOKS, call.branches, call.current, known)[call.current]


def tokens(article: str, *words: str) -> list[str]:
    answers = [answer for step in BOOKS.articles[article].steps for answer in step.answers]
    return [next(answer.token for answer in answers if answer.text == each) for each in words]


def test_a_fault_begins_at_its_first_step() -> None:
    assert where(begun()).at.title == "Is there a gauge?"


def test_what_is_known_of_the_home_is_shown_and_not_asked() -> None:
    place = where(begun(), SEALED)
    assert place.at.title == "What does it say?"
    assert [taken.step.title for taken in place.standing.taken if taken.by is By.FACT] == ["Is there a gauge?"]


def test_a_home_that_is_found_meanwhile_loses_no_answer() -> None:
    told = begun().answered(BOOKS, "Yes", "Low~0.5", start=2)
    place = where(told, SEALED)
    assert place.at.title == "How many times was it reset before?"
    assert place.gone == ()


def test_a_home_that_contradicts_an_answer_says_what_no_longer_fits() -> None:
    told = begun().answered(BOOKS, "Yes", "Low~0.5", start=2)
    place = where(told, Known({"system": "vented"}))
    assert place.at.title == "Call us"
    assert place.unasked == ("“Low” to “What does it say?” is not asked any more.",)


def test_an_answer_given_again_at_an_earlier_question_takes_the_place_of_what_came_after() -> None:
    told = begun().answered(BOOKS, "Yes", "Low~0.5", start=2)
    told.did(Did.ANSWERED, branch="0", place="2", piece=tokens("pressure", "No")[0])
    assert where(told).at.title == "Call us"


def test_going_back_only_takes_away() -> None:
    told = begun().answered(BOOKS, "Yes", "Low~0.5", start=2).did(Did.ANSWERED, branch="0", place="3", piece="")
    assert where(told).at.title == "What does it say?"


def test_a_second_fault_is_not_asked_what_the_first_brought_out() -> None:
    told = begun().answered(BOOKS, "Yes", start=2).did(Did.BEGAN, article="noise", trail=no_to(BOOKS))
    assert where(told).at.title == "How many times was it reset before?"


def tried_once_in_each() -> Told:
    told = begun().answered(BOOKS, "Yes", "Low~0.5", "None", "It stopped again", start=2)
    told.did(Did.BEGAN, article="noise", trail=no_to(BOOKS))
    piece = tokens("noise", "Still there")[0]
    return told.did(Did.ANSWERED, branch="1", place="2", piece=piece)


def test_what_was_tried_in_one_fault_counts_in_the_other() -> None:
    told = tried_once_in_each()
    assert where(told).at.title == "Call us"
    assert where(told.did(Did.TURNED, branch="0")).at.title == "Call us"


def test_going_back_to_the_first_fault_finds_it_where_it_was() -> None:
    told = begun().answered(BOOKS, "Yes", start=2).did(Did.BEGAN, article="noise", trail=no_to(BOOKS))
    assert where(told.did(Did.TURNED, branch="0")).at.title == "What does it say?"


def test_a_piece_that_nobody_knows_is_told_with_all_that_came_after() -> None:
    told = Told().did(Did.BEGAN, article="pressure", trail=f"{no_to(BOOKS)}-zzz-yyy", how="link")
    place = where(told)
    assert place.at.title == "Is there a gauge?"
    assert [each.number for each in place.gone] == [2, 3]
    assert place.drops == (2, 3)


def test_they_cannot_tell_ends_a_step_without_an_answer_for_it() -> None:
    told = begun().answered(BOOKS, "Yes", start=2).did(Did.ANSWERED, branch="0", place="3", piece="cannot")
    place = where(told)
    assert (place.at.title, place.cannot.title) == ("Call us", "What does it say?")


def test_a_fault_that_is_not_there_is_told() -> None:
    with pytest.raises(NoSuchFault):
        places(BOOKS, [Branch("ghost", (Given("abc"),))], 0)


HOUSEHOLD = [step for step in REAL.steps() if step.audience is Audience.HOUSEHOLD and step.answers]


@pytest.mark.parametrize("choose", [unsure_answer, unable_answer])
def test_every_step_of_every_article_has_a_way_for_somebody_who_cannot(choose) -> None:
    for step in HOUSEHOLD:
        answer = choose(step)
        end = REAL.find(answer.target, Audience.HOUSEHOLD) if answer else way_out(REAL, step)
        assert isinstance(end, (Step, End)), step.target


def test_most_steps_have_an_answer_of_their_own() -> None:
    assert sum(unsure_answer(step) is not None for step in HOUSEHOLD) > 0.85 * len(HOUSEHOLD)


@pytest.mark.parametrize(
    ("article", "step", "answer"),
    [
        ("low-pressure", "does-your-boiler-have-a-pressure-gauge", "I am not sure"),
        ("low-pressure", "turn-the-boiler-off-and-let-it-cool", "I cannot reach it"),
        ("gas-supply", "light-one-hob-ring", None),
        ("wont-stop", "turn-the-radiators-down", None),
    ],
)
def test_the_answer_for_somebody_who_cannot_tell_is_the_steps_own(article: str, step: str, answer: str | None) -> None:
    found = next(each for each in REAL.articles[article].steps if each.anchor == step)
    chosen = unsure_answer(found)
    assert (chosen.text if chosen else None) == answer


def test_a_guess_that_could_hurt_brings_somebody_today() -> None:
    steps = {step.anchor: step for step in HOUSEHOLD}
    assert way_out(REAL, steps["light-one-hob-ring"]).pace == "today"
    assert way_out(REAL, steps["turn-the-radiators-down"]).pace == "three-days"
