from datetime import date

import pytest

from kb.article import Pace
from kb.facts import GaugeMarks, Known
from kb.home import Home
from kb.register import Address, Need, Person, Record
from kb.register.appliances import Appliance
from kb.triage.brief import Answer, Brief, Told, brief
from kb.triage.jobs import ClosedJob, tally
from tests.kb.desk.calling import books

BOOKS = books()
ARTICLE = BOOKS.articles["pressure"]
STEPS = {step.target: step for step in BOOKS.steps()}
SAYS = ARTICLE.steps[1].target
HOME = Home("9EJFP-R992N-EKTAM", "any", "Any 20", Known({"system": "sealed"}, GaugeMarks(0.9, 1.2, 1.8)),
            {"stop-tap": "in the porch"}, date(2020, 2, 1))  # fmt: skip
NEED = Need("time-at-the-door", date(2026, 1, 5))
RECORD = Record(HOME.key, (Appliance("Any 20", "any", serial="S 1", serviced=date(2025, 9, 3)),), HOME.known,
                HOME.places, Address(("1 Any Street",), "Anytown", "ZZ9 9ZZ"),
                (Person("Robin Ash", phones=("+441632960111",), needs=(NEED,)),))  # fmt: skip
TOLD = Told(
    Pace.TODAY, "Call us", {SAYS: "Low"}, (Answer("What does it say?", "Low (0.4 bar)"),),
    (Answer("Can you smell gas?", "No", "08:00:00"),), {"reset": (1, 2)}, ("it has gone cold",), "P seven",
    (Answer("Access", "dog in the yard"),), ("before five",), ("the alarm chirped",),
)  # fmt: skip


@pytest.fixture
def made() -> Brief:
    jobs = [ClosedJob("pressure", "any", "Weep")] * 4
    return brief(ARTICLE, STEPS, TOLD, HOME, RECORD, tally(jobs, "pressure"), ["3 May: vented"])


def test_the_likeliest_cause_stands_first_with_what_speaks_for_it(made: Brief) -> None:
    first = made.causes[0]
    assert first.cause == "Vessel flat"
    # By hand: 30 jobs' worth of 60 and 40 % with four weeps, once for all ranges and once for this; "Low" is ×4.
    flat, weep = 30 * 18 / 34, 30 * 16 / 34 + 4
    assert first.chance == pytest.approx(4 * flat / (4 * flat + weep))
    assert first.speaks_for[0].startswith("What does it say? Low (")
    assert made.causes[1].speaks_against


def test_the_jobs_behind_each_chance_are_told(made: Brief) -> None:
    assert (made.jobs, [each.jobs for each in made.causes]) == (4, [0, 4])


def test_what_was_noted_on_the_phone_comes_along(made: Brief) -> None:
    assert made.words == ("it has gone cold",)
    assert made.noted == ("the alarm chirped",)


def test_the_parts_cover_four_chances_in_five(made: Brief) -> None:
    assert made.causes[0].chance < 0.8
    assert made.bring == ("gauge", "vessel", "olives")
    assert brief(ARTICLE, STEPS, Told(Pace.TODAY, "Call us", TOLD.given)).bring == ("gauge", "vessel")


def test_what_was_tried_is_told_with_its_counts(made: Brief) -> None:
    assert made.tried == (Answer("Resets", "1 before the call, 2 in it"),)


def test_the_engineers_checks_stand_in_order_and_no_household_step_among_them(made: Brief) -> None:
    assert [check.title for check in made.checks] == ["Read it cold"]
    assert made.checks[0].outcomes == ("True",)


def test_the_home_its_people_and_its_history_are_told(made: Brief) -> None:
    assert Answer("Address", "1 Any Street, Anytown, ZZ9 9ZZ") in made.home
    assert Answer("The tap that turns the water off", "in the porch") in made.home
    assert made.access == (Answer("Access", "dog in the yard"), Answer("Robin Ash", "needs extra time at the door"))
    assert Answer("Last service", "3 September 2025") in made.appliance
    assert Answer("Gauge marks", "0.9, 1.2, 1.8 bar") in made.appliance
    assert made.history == ("3 May: vented",)


def test_without_a_home_the_brief_says_so() -> None:
    made = brief(ARTICLE, STEPS, TOLD)
    assert made.appliance == (Answer("Appliance", "not known"),)
    assert made.danger == TOLD.danger


def test_what_was_agreed_comes_before_what_was_promised_and_numbers_as_people_write_them() -> None:
    last = [Answer("Bring", "a pump")]
    made = brief(ARTICLE, STEPS, TOLD, HOME, RECORD, agreed="Friday, 8:00 to 12:00", last_time=last, region="GB")
    assert made.promised == ("Friday, 8:00 to 12:00", "before five")
    assert made.last_time == (Answer("Bring", "a pump"),)
    assert Answer("Robin Ash", "01632 960111", ring=(("01632 960111", "tel:+441632960111"),)) in made.home
