import re

import pytest

from kb.desk.danger import questions
from kb.library import Library
from tests.server.desk.conftest import Clock, Handler, faulty


def test_a_call_begins_with_danger_before_any_name(desk: Handler, books: Library) -> None:
    desk.begin()
    for step in questions(books):
        assert desk.page.heading == step.title
        assert "scrap" not in desk.text
        desk.says("no")
    assert desk.page.heading == "Who rings?"


@pytest.mark.parametrize("part", ["who", "what", "pace"])
def test_nothing_leads_past_the_danger_questions(desk: Handler, books: Library, part: str) -> None:
    desk.begin()
    for _ in range(7):
        desk.says("no")
        assert desk.see(part).page.heading == questions(books)[min(7, _ + 1)].title


def test_a_fault_cannot_be_walked_before_danger_is_cleared(desk: Handler) -> None:
    desk.begin().does("fault", article="low-pressure")
    assert "question 1 of 8" in desk.page.words


def test_the_first_yes_says_what_to_say_and_the_number_and_ends_the_path(desk: Handler) -> None:
    desk.begin().says("no").says("not-sure")
    assert desk.page.heading == "Get out: smell of gas"
    assert "0800 111 999" in desk.page.words
    assert "0 8 0 0, 1 1 1, 9 9 9" in desk.page.words
    desk.does("fault", article="low-pressure")
    assert desk.page.heading == "Get out: smell of gas"
    assert desk.see("what").page.heading == "Get out: smell of gas"


def test_a_wrong_key_is_taken_back_with_a_reason_that_stays_in_the_note(desk: Handler) -> None:
    desk.begin().says("no").says("yes")
    assert desk.does("slipped", why="").status == 422
    desk.does("slipped", why="they said no")
    assert "question 2 of 8" in desk.page.words
    assert "A yes was taken back they said no" in desk.see("note").page.words


def test_a_key_pressed_twice_answers_one_question(desk: Handler) -> None:
    desk.begin()
    sent = {**desk.hidden, "step": re.search(r'name="step" value="([^"]+)"', desk.text)[1], "answer": "no"}
    for _ in range(2):
        desk.client.post(f"/desk/{desk.call}/asked", data=sent)
    assert "question 2 of 8" in desk.see().page.words


def test_words_that_may_mean_danger_put_the_question_on_top(desk: Handler) -> None:
    faulty(desk)
    desk.does("noted", words="and the alarm has been chirping, the carbon monoxide one")
    assert desk.page.heading.startswith("Any carbon monoxide alarm")
    assert "the alarm has been chirping" in desk.page.words
    assert desk.says("yes").page.heading == "Get out: carbon monoxide"


def test_words_that_may_mean_danger_and_do_not_lose_nothing(desk: Handler) -> None:
    faulty(desk)
    before = desk.page.heading
    desk.does("noted", words="my neighbour smelled gas last year")
    while "question" in desk.page.words and 'name="step"' in desk.text:
        desk.says("no")
    assert desk.page.heading == before


def test_one_key_from_anywhere_returns_to_danger(desk: Handler) -> None:
    for part in ("", "who", "what", "pace", "finish", "note"):
        assert 'data-key="d"' in faulty(desk).see(part).text
    assert "question 1 of 8" in desk.does("again", which="all").page.words


def test_after_five_minutes_gas_and_alarm_are_asked_again(desk: Handler, clock: Clock) -> None:
    faulty(desk)
    assert "hidden" in re.search(r'<div class="reminder"[^>]*>', desk.text)[0]
    clock.on(minutes=5)
    assert "hidden" not in re.search(r'<div class="reminder"[^>]*>', desk.see().text)[0]
    assert "question 2 of 8" in desk.does("again", which="gas-alarm").page.words
    assert "question 3 of 8" in desk.says("no").page.words
    desk.says("no")
    assert "hidden" in re.search(r'<div class="reminder"[^>]*>', desk.text)[0]


@pytest.mark.parametrize("field", ["since", "changed"])
def test_danger_is_looked_for_in_everything_that_is_said(desk: Handler, field: str) -> None:
    faulty(desk).does("told", **{field: "since the carbon monoxide alarm went off"})
    assert desk.page.heading.startswith("Any carbon monoxide alarm")
    assert "went off" in desk.page.words


def test_danger_in_the_reason_for_a_later_pace_is_not_passed_over(desk: Handler) -> None:
    faulty(desk).does("people", asked="yes", other_heat="yes").does("told", heating="yes", hot_water="yes").see("pace")
    desk.does("choose-pace", to="routine", why="it smells of gas but they are used to it")
    assert desk.page.heading.startswith("Can you smell gas")
