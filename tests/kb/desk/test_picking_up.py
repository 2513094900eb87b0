import pytest

from kb.desk.picking_up import pick_up
from kb.facts import NOTHING_KNOWN, Known
from kb.guide import none_of
from kb.reference import Slip, reference
from kb.walk import walk
from tests.builders import library
from tests.kb.desk.calling import NOISE, PRESSURE, books, real

BOOKS = books()
START = BOOKS.articles["pressure"].steps[0]
SEALED = Known({"system": "sealed"})


def trail(*words: str, known: Known = NOTHING_KNOWN) -> str:
    so_far = none_of(BOOKS)
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
    assert found.slip is Slip.CHANGED
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


SAID = reference(BOOKS, START, trail("Yes", "Low"))
GROUPS = SAID.split()


@pytest.mark.parametrize(
    "message",
    [
        f"The gauge is low. Call us.\nReference {SAID}\n- Is there a gauge? Yes",
        f"hi its me again\n> The gauge is low.\n> Reference: {GROUPS[0]}\n> {' '.join(GROUPS[1:])}\nthanks",
        f"“{SAID}”",
        f"my number is 01632 960123, code {SAID.lower().replace(' ', '-')}.",
        f"ref:{SAID.replace(' ', '')}; ring me",
    ],
)
def test_a_reference_is_found_wherever_it_stands_in_a_message(message: str) -> None:
    found = pick_up(BOOKS, " ".join(message.split()))
    assert (found.article, found.trail, found.slip) == ("pressure", trail("Yes", "Low"), None)
    assert pick_up(BOOKS, message) == found


def said_with(sign: str) -> tuple[str, str]:
    """A trail with a gauge's figure whose reference has this character, and that reference."""
    for hundredths in range(400):
        figure = hundredths / 100
        walked = f"{trail('Yes', 'Low' if figure < 0.8 else 'Right')}~{figure:g}"
        said = reference(BOOKS, START, walked)
        if sign in said:
            return walked, said
    raise AssertionError(f"no reference with {sign}")


@pytest.mark.parametrize(
    ("right", "wrong"), [("D", "0"), ("D", "O"), ("Q", "O"), ("7", "1"), ("T", "I"), ("2", "Z"), ("C", "G")]
)
def test_one_character_that_looks_like_another_is_read_as_it_if_the_check_says_so(right: str, wrong: str) -> None:
    walked, said = said_with(right)
    assert pick_up(BOOKS, f"here: {said.replace(right, wrong, 1)}").trail == walked


def test_a_look_alike_that_the_check_does_not_bear_out_is_a_slip() -> None:
    place = next(place for place, sign in enumerate(SAID) if sign not in " DQ")
    assert pick_up(BOOKS, SAID[:place] + "0" + SAID[place + 1 :]).slip is Slip.MISTYPED


def test_two_characters_that_no_reference_has_are_a_slip() -> None:
    places = [place for place, sign in enumerate(SAID) if sign != " "][:2]
    seen = "".join("O" if place in places else sign for place, sign in enumerate(SAID))
    assert pick_up(BOOKS, seen).slip is Slip.MISTYPED


@pytest.mark.parametrize(
    "message",
    [
        "https://heating.example/help/pressure/{}",
        "look: <https://heating.example/help/pressure/{}>, please",
        "pressure/{}",
        "I got as far as {} and then it went cold",
    ],
)
def test_a_trail_is_found_wherever_it_stands(message: str) -> None:
    found = pick_up(BOOKS, message.format(trail("Yes")))
    assert (found.article, found.trail) == ("pressure", trail("Yes"))


def test_a_link_that_a_line_end_broke_is_put_together() -> None:
    broken = trail("Yes").replace("-", "-\n")
    assert pick_up(BOOKS, f"/help/pressure/{broken}\nand then it stopped").trail == trail("Yes")


def test_the_key_of_a_card_comes_along_with_the_message() -> None:
    found = pick_up(BOOKS, f"The gauge is low. Card 9EJFP-R992N-EKTAM Reference {SAID}")
    assert (found.key, found.trail) == ("9EJFP-R992N-EKTAM", trail("Yes", "Low"))


WORDS = "the boiler went off again at ten and now the needle is near the red mark and it makes that humming sound"


def test_plain_words_are_no_reference() -> None:
    assert pick_up(BOOKS, WORDS).slip is Slip.MISTYPED
    assert pick_up(real(), (WORDS + " ") * 15).slip is Slip.MISTYPED


def test_a_reference_of_an_older_library_keeps_all_its_answers() -> None:
    newer = library(pressure=PRESSURE.replace("[Yes](#what", "[There is one](#what"), noise=NOISE)
    found = pick_up(newer, SAID, earlier=[BOOKS])
    assert (found.article, found.trail, found.slip) == ("pressure", trail("Yes", "Low"), Slip.ANSWER_GONE)
    assert pick_up(newer, SAID).slip is Slip.CHANGED


def test_an_article_that_is_no_more_is_told_by_its_title() -> None:
    found = pick_up(library(noise=NOISE), SAID, earlier=[BOOKS])
    assert (found.slip, found.title) == (Slip.NO_SUCH_ARTICLE, "The gauge is low")
