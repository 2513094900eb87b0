from zoneinfo import ZoneInfo

from kb.article import Pace
from kb.desk.events import Did
from kb.desk.reading import read
from kb.prose import Target
from kb.triage.brief import Answer
from kb.visit.from_call import article_of, told
from tests.kb.desk.calling import Told, books, no_to, real
from tests.kb.visit.building import TODAY

SHELF = books()
LONDON = ZoneInfo("Europe/London")


def call() -> Told:
    made = Told().clear(SHELF).did(Did.CALLER, phone="01632 960111", access="dog in the yard")
    made.did(Did.WORDS, words="it has gone cold").did(Did.FLAGS, flags="tenant")
    made.did(Did.PROMISED, what="a visit", by="five").did(Did.BEGAN, article="pressure", trail=no_to(SHELF))
    return made.answered(SHELF, "Yes", "Low", "Once", "It stopped again", start=2)


def test_a_call_tells_what_was_answered_and_tried() -> None:
    made = told(read(SHELF, call().events, TODAY), LONDON)
    assert made.given[Target("pressure", "what-does-it-say")] == "Low"
    assert made.tried == {"reset": (1, 1)}
    assert made.words == ("it has gone cold",)
    assert made.promised == ("a visit (by five)",)


def test_danger_is_told_with_the_time_it_was_asked() -> None:
    made = told(read(SHELF, call().events, TODAY), LONDON)
    assert made.danger[0] == Answer("Can you smell gas?", "No", "08:00:00")


def test_access_and_what_the_caller_cannot_do_are_told() -> None:
    made = told(read(SHELF, call().events, TODAY), LONDON)
    assert Answer("Access, parking, pets", "dog in the yard") in made.access
    assert Answer("Whoever rang", "rents the home") in made.access


def test_the_fault_is_the_last_that_has_causes() -> None:
    found = article_of(SHELF, read(SHELF, call().events, TODAY))
    assert found
    assert found.id == "pressure"


def test_where_a_danger_is_a_fault_of_its_own_the_visit_is_about_that() -> None:
    shelf = real()
    found = article_of(shelf, read(shelf, Told().asked(shelf, "no", "no", "yes").events, TODAY))
    assert found
    assert found.id == "carbon-monoxide"


def test_what_was_noted_is_told() -> None:
    made = call().did(Did.NOTED, words="the alarm chirped")
    assert told(read(SHELF, made.events, TODAY), LONDON).noted == ("the alarm chirped",)


def test_a_call_without_a_fault_still_has_a_brief() -> None:
    reading = read(SHELF, Told().clear(SHELF).events, TODAY)
    assert article_of(SHELF, reading) is None
    assert (told(reading, LONDON).answers, told(reading, LONDON).pace) == ((), Pace.TODAY)
