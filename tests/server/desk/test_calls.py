import re

import pytest

from kb.desk.danger import questions
from kb.library import Library
from kb.reference import reference
from kb.register import Address, Appliance, Need, Person, Record
from kb.staff import Role
from server.site import Site
from tests.builders import TODAY
from tests.server.conftest import SEALED
from tests.server.desk.conftest import Clock, Handler


@pytest.fixture
def registered(site: Site) -> Record:
    person = Person("Robin Marsh", phones=("+441632960111",), needs=(Need("over-65", TODAY),))
    record = Record(SEALED.key, (Appliance("Marlpit C 28", "marlpit-c", serial="S 7"),), SEALED.known, SEALED.places,
                    Address(("4 Any Street",), "Anytown", "ZZ9 9ZZ"), (person,))  # fmt: skip
    assert site.store.register.put(record, "office") == ()
    return record


def faulty(desk: Handler, words: str = "the gauge is right down and it has stopped") -> Handler:
    desk.begin().clear().does("home", key="none").does("told", words=words)
    return desk.does("fault", article="low-pressure")


def test_the_desk_is_open_to_the_desk_alone(staffed: Site, desk: Handler) -> None:
    from tests.server.desk.conftest import signed_in

    engineer = signed_in(staffed, "Robin")
    assert engineer.get("/desk").status_code == 403
    assert engineer.get(f"/desk/{desk.begin().call}").status_code == 403


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


@pytest.mark.parametrize("scrap", ["marsh", "any str", "ZZ9 9", "960111", SEALED.key])
def test_a_home_is_found_by_any_scrap(desk: Handler, registered: Record, scrap: str) -> None:
    desk.begin().clear().does("caller", phone="", scrap=scrap)
    assert "Robin Marsh" in desk.page.words
    desk.does("home", key=SEALED.key)
    assert "Marlpit C 28" in desk.page.words
    assert "under the kitchen sink" in desk.page.words


def test_what_is_known_of_the_home_is_shown_and_not_asked(desk: Handler, registered: Record) -> None:
    desk.begin().clear().does("home", key=SEALED.key).does("fault", article="low-pressure")
    assert desk.page.heading == "Turn the boiler off and let it cool"
    assert "(known of the home)" in desk.page.words


def test_a_home_found_later_loses_no_answer(desk: Handler, registered: Record) -> None:
    faulty(desk).answers("Yes, there is a gauge").answers("It is off and cool")
    before = desk.page.heading
    assert desk.does("home", key=SEALED.key).page.heading == before


def test_a_figure_is_typed_and_a_wrong_one_is_told(desk: Handler) -> None:
    faulty(desk).answers("Yes, there is a gauge").answers("It is off and cool")
    assert desk.reads("12").status == 422
    assert "“12” cannot be on that gauge" in desk.page.words
    assert desk.reads("0,4").page.heading == "Was air let out of a radiator lately?"
    assert "Below 0.5 bar (0.4 bar)" in desk.page.words


def test_they_cannot_tell_is_an_answer_on_every_step(desk: Handler) -> None:
    assert faulty(desk).answers("They can't tell").page.heading == "Stop here"


def test_an_answer_is_asked_again(desk: Handler) -> None:
    faulty(desk).answers("Yes, there is a gauge").answers("It is off and cool")
    place = re.findall(r'name="place" value="(\d+)" aria-label="Ask again: Does your boiler', desk.text)[0]
    assert desk.does("back", branch="0", place=place).page.heading == "Does your boiler have a pressure gauge?"


def test_an_answer_from_a_page_of_before_changes_nothing(desk: Handler) -> None:
    faulty(desk)
    old = desk.text
    desk.answers("Yes, there is a gauge")
    now, desk.text = desk.page.heading, old
    desk.answers("No, there is a small tank in the loft")
    assert desk.page.heading == now


def test_a_second_fault_is_looked_at_beside_the_first(desk: Handler) -> None:
    faulty(desk).answers("Yes, there is a gauge")
    before = desk.page.heading
    desk.does("fault", article="noise")
    assert "Other fault of this call" in desk.page.words
    assert desk.does("turn", branch="0").page.heading == before


@pytest.mark.parametrize(
    ("flag", "words"),
    [
        ("tenant", "Tell your landlord or the agent today"),
        ("not-there", "Ring the people there first"),
        ("text-only", "text relay"),
    ],
)
def test_who_the_caller_is_brings_the_words_for_them(desk: Handler, flag: str, words: str) -> None:
    assert words not in faulty(desk).page.words
    assert words in desk.does("flag", flag=flag).page.words


def test_somebody_who_cannot_kneel_is_led_the_safe_way_out(desk: Handler) -> None:
    faulty(desk).does("flag", flag="no-climbing")
    assert "The safe way out is 0" in desk.page.words


def walked(site: Site, article: str, *words: str) -> str:
    from kb.article import Audience
    from kb.walk import walk

    start = site.library.articles[article].first(Audience.HOUSEHOLD)
    trail = "none"
    for each in words:
        at = walk(site.library, start, trail).at
        trail += "-" + next(answer.token for answer in at.answers if answer.text == each)
    return trail


def test_a_reference_opens_the_very_step_and_nothing_is_asked_twice(desk: Handler, site: Site) -> None:
    trail = walked(site, "low-pressure", "Yes, there is a gauge", "It is off and cool")
    said = reference(site.library, site.library.articles["low-pressure"].steps[0], trail)
    desk.begin().clear().does("home", key="none").does("reference", reference=said.lower().replace(" ", "-"))
    assert desk.page.heading == "What does the gauge say now?"
    assert "Does your boiler have a pressure gauge? Yes, there is a gauge" in desk.page.words


def test_a_slip_of_the_tongue_is_told_and_the_typing_kept(desk: Handler) -> None:
    desk.begin().clear().does("home", key="none").does("reference", reference="ABCD EFGH")
    assert desk.status == 422
    assert 'value="ABCD EFGH"' in desk.text


def test_a_link_brings_its_home_along(desk: Handler, registered: Record) -> None:
    link = f"https://heating.example/h/{SEALED.key}/help/low-pressure/none"
    desk.begin().clear().does("home", key="none")
    assert desk.does("reference", reference=link).page.heading == "Turn the boiler off and let it cool"
    assert "under the kitchen sink" in desk.page.words


def test_the_answers_of_a_link_that_are_gone_are_told(desk: Handler) -> None:
    desk.begin().clear().does("home", key="none").does("reference", reference="/help/low-pressure/none-zzz-yyy")
    assert desk.page.heading == "Does your boiler have a pressure gauge?"
    assert "2 answers from before no longer fit" in desk.page.words


def test_a_household_that_walked_into_danger_is_told_what_to_do(desk: Handler, site: Site, books: Library) -> None:
    gas = questions(books)[1].answers[0].token
    desk.begin().clear().does("home", key="none").does("reference", reference=f"/help/low-pressure/{gas}")
    assert desk.page.heading == "Get out: smell of gas"


def test_an_article_that_is_not_there_is_not_begun(desk: Handler) -> None:
    assert desk.begin().clear().does("fault", article="ghost").status == 404


def test_the_room_is_for_accounts_with_its_role() -> None:
    from server.staff.pages import ROOMS

    assert (Role.DESK, "Desk", "/desk") in ROOMS
