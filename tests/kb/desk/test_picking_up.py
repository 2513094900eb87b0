import pytest

from kb.desk.picking_up import pick_up
from kb.facts import NOTHING_KNOWN, Known
from kb.reference import Slip, reference
from kb.walk import walk
from tests.builders import library
from tests.kb.desk.calling import NOISE, PRESSURE, books

BOOKS = books()
START = BOOKS.articles["pressure"].steps[0]
SEALED = Known({"system": "sealed"})


def trail(*words: str, known: Known = NOTHING_KNOWN) -> str:
    so_far = "none"
    for each in words:
        at = walk(BOOKS, START, so_far, known).at
        so_far = f"{so_far}-{next(answer.token for answer in at.answers if answer.text == each)}"
    return so_far


def test_a_reference_opens_the_very_step() -> None:
    said = reference(BOOKS, START, trail("Yes"))
    found = pick_up(BOOKS, said.lower())
    assert (found.article, found.trail, found.slip) == ("pressure", trail("Yes"), None)


def test_a_reference_that_was_made_with_a_homes_facts_is_read_with_them() -> None:
    said = reference(BOOKS, START, trail("Low", known=SEALED), SEALED)
    assert pick_up(BOOKS, said, [SEALED]).trail == trail("Low", known=SEALED)
    assert pick_up(BOOKS, said, [Known({"system": "vented"}), SEALED]).slip is None


def test_a_reference_of_a_household_without_a_card_is_read_although_the_desk_knows_the_home() -> None:
    said = reference(BOOKS, START, trail("Yes", "Low"))
    assert pick_up(BOOKS, said, [SEALED]) == pick_up(BOOKS, said)


@pytest.mark.parametrize("place", range(11))
def test_one_wrong_character_is_always_caught(place: int) -> None:
    said = reference(BOOKS, START, trail("Yes", "Low")).replace(" ", "")
    for wrong in "23479ACDEFHJKMNPQRTUWXY":
        if place < len(said) and wrong != said[place]:
            assert pick_up(BOOKS, said[:place] + wrong + said[place + 1 :], [SEALED]).slip is Slip.MISTYPED


def test_an_answer_that_is_gone_is_counted_and_the_others_kept() -> None:
    said = reference(BOOKS, START, trail("Yes", "Low"))
    newer = library(pressure=PRESSURE.replace("[Yes](#what", "[There is one](#what"), noise=NOISE)
    found = pick_up(newer, said)
    assert found.slip in (Slip.ANSWER_GONE, Slip.CHANGED)
    assert found.article == "pressure"


@pytest.mark.parametrize("before", ["", "https://heating.example", "see https://heating.example/h/9EJFP-R992N-EKTAM"])
def test_a_link_opens_the_very_step(before: str) -> None:
    found = pick_up(BOOKS, f"{before}/help/pressure/{trail('Yes')} thanks")
    assert (found.article, found.trail) == ("pressure", trail("Yes"))
    assert found.key == ("9EJFP-R992N-EKTAM" if "/h/" in before else "")


def test_a_link_to_an_article_that_is_gone_says_so() -> None:
    assert pick_up(BOOKS, "/help/ghost/none").slip is Slip.NO_SUCH_ARTICLE


def test_anything_else_is_taken_for_a_slip_of_the_tongue() -> None:
    assert pick_up(BOOKS, "good morning").slip is Slip.MISTYPED
