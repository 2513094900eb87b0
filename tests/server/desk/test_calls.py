import re
from dataclasses import replace

import pytest

from kb.desk.danger import questions
from kb.desk.events import Did, Event
from kb.library import Library, build
from kb.notation import read_article
from kb.reference import reference
from kb.register import Record
from kb.staff import Role
from server.site import Site
from tests.server.conftest import ROOT, SEALED, WEDNESDAY_NOON
from tests.server.desk.conftest import Handler, faulty, signed_in


def test_the_desk_is_open_to_the_desk_alone(staffed: Site, desk: Handler) -> None:
    engineer = signed_in(staffed, "Robin")
    assert engineer.get("/desk").status_code == 403
    assert engineer.get(f"/desk/{desk.begin().call}").status_code == 403


@pytest.mark.parametrize("scrap", ["marsh", "any str", "ZZ9 9", "960111", SEALED.key])
def test_a_home_is_found_by_any_scrap(desk: Handler, registered: Record, scrap: str) -> None:
    desk.begin().clear().does("caller", phone="", scrap=scrap)
    assert "Robin Marsh" in desk.page.words
    desk.does("home", key=SEALED.key)
    assert "Marlpit C 28" in desk.page.words
    assert "under the kitchen sink" in desk.page.words


@pytest.mark.parametrize("scrap", ["marsh", "960111", "nobody at all"])
def test_what_was_typed_comes_into_no_address(desk: Handler, registered: Record, scrap: str) -> None:
    desk.begin().clear()
    page = desk.see("who").text
    fields = {name: re.search(rf'name="{name}" value="(\w+)"', page)[1] for name in ("csrf", "id")}
    sent = desk.client.post(f"/desk/{desk.call}/caller", data={**fields, "scrap": scrap})
    if scrap == "nobody at all":
        assert sent.status_code == 200
        assert "No home found for that" in sent.text
        assert f'value="{scrap}"' in sent.text
    else:
        assert sent.headers["location"] == f"/desk/{desk.call}/who/{SEALED.key}"
        assert "Robin Marsh" in desk.client.get(sent.headers["location"]).text


def test_homes_that_were_found_wait_behind_danger(desk: Handler, registered: Record) -> None:
    desk.begin()
    found = desk.client.get(f"/desk/{desk.call}/who/{SEALED.key}")
    assert found.headers["location"] == f"/desk/{desk.call}"


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


def test_a_fault_that_was_begun_is_gone_on_with_and_not_begun_twice(desk: Handler) -> None:
    before = faulty(desk).answers("Yes, there is a gauge").page.heading
    assert desk.does("fault", article="low-pressure").page.heading == before


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
    assert "2 answers, given after “Is it labelled" in desk.page.words


def test_answers_that_may_have_changed_are_read_back(desk: Handler, site: Site) -> None:
    trail = walked(site, "low-pressure", "Yes, there is a gauge")
    said = {"article": "low-pressure", "trail": trail, "how": "reference", "slip": "changed"}
    desk.begin().clear().does("home", key="none")
    site.store.calls.add(desk.call, Event("picked", WEDNESDAY_NOON, "Wren", Did.BEGAN, said))
    assert "Read each answer below back to them" in desk.see().page.words
    assert "Read each answer below back to them" not in desk.does("read-back", branch="0").page.words


def test_a_household_that_walked_into_danger_is_told_what_to_do(desk: Handler, site: Site, books: Library) -> None:
    gas = questions(books)[1].answers[0].token
    desk.begin().clear().does("home", key="none").does("reference", reference=f"/help/low-pressure/{gas}")
    assert desk.page.heading == "Get out: smell of gas"


def test_an_article_that_is_not_there_is_not_begun(desk: Handler) -> None:
    assert desk.begin().clear().does("fault", article="ghost").status == 404


def test_the_room_is_for_accounts_with_its_role() -> None:
    from server.staff.pages import ROOMS

    assert (Role.DESK, "Desk", "/desk") in ROOMS


def test_an_open_call_follows_its_home_to_a_new_key(desk: Handler, site: Site, registered: Record) -> None:
    desk.begin().clear().does("home", key=SEALED.key).does("fault", article="low-pressure")
    new = site.store.register.replace_key(SEALED.key, "office")
    assert new
    desk.see()
    assert "under the kitchen sink" in desk.page.words
    assert f"New card {new}. Key {SEALED.key} was replaced" in desk.page.words
    assert "4 Any Street" in desk.see("note").page.words


def test_a_caller_who_reads_out_an_old_key_is_told_so_and_found(desk: Handler, site: Site, registered: Record) -> None:
    new = site.store.register.replace_key(SEALED.key, "office")
    desk.begin().clear().does("caller", scrap=SEALED.key.lower())
    assert f"The home has a new one with the key {new}." in desk.page.words
    assert "Robin Marsh" in desk.page.words


def test_a_link_with_an_old_key_brings_its_home_along(desk: Handler, site: Site, registered: Record) -> None:
    new = site.store.register.replace_key(SEALED.key, "office")
    desk.begin().clear().does("home", key="none")
    desk.does("reference", reference=f"https://heating.example/h/{SEALED.key}/help/low-pressure/none")
    assert desk.page.heading == "Turn the boiler off and let it cool"
    assert f"New card {new}." in desk.page.words


def test_a_message_with_a_reference_in_it_opens_the_very_step(desk: Handler, site: Site) -> None:
    trail = walked(site, "low-pressure", "Yes, there is a gauge", "It is off and cool")
    said = reference(site.library, site.library.articles["low-pressure"].steps[0], trail)
    desk.begin().clear().does("home", key="none")
    desk.does("reference", reference=f"The pressure is low. Call us.\nCard {SEALED.key}\nReference {said}\n- Yes")
    assert desk.page.heading == "What does the gauge say now?"


def older(site: Site, words: str, others: str) -> Library:
    """The library of before, in which an answer of the first step was worded otherwise."""
    path = ROOT / "articles/en/low-pressure.md"
    text = path.read_text(encoding="utf-8").replace(f"[{words}]", f"[{others}]")
    read, _ = read_article("low-pressure.md", text)
    assert read
    return build([*(each for each in site.library.articles.values() if each.id != read.id), read])


def test_what_an_older_reference_still_says_is_kept_when_its_gap_is_asked(staffed: Site) -> None:
    before = older(staffed, "Yes, there is a gauge", "Yes, a dial")
    trail = walked(replace(staffed, library=before), "low-pressure", "Yes, a dial", "It is off and cool")
    said = reference(before, before.articles["low-pressure"].steps[0], trail)
    with signed_in(replace(staffed, earlier=[before]), "Wren") as client:
        desk = Handler(client)
        desk.begin().clear().does("home", key="none").does("reference", reference=said)
        assert desk.page.heading == "Does your boiler have a pressure gauge?"
        assert "“Yes, a dial” to “Does your boiler have a pressure gauge?” is no longer" in desk.page.words
        assert "1 answer from before waits for its question" in desk.page.words

        desk.answers("Yes, there is a gauge")
        assert desk.page.heading == "What does the gauge say now?"
        assert "waits for its question" not in desk.page.words
        assert "“Yes, a dial” to" in desk.see("note").page.words

        back = re.findall(r'name="place" value="(\d+)"[^>]*aria-label="Ask again: (Turn[^"]*)"', desk.see().text)
        assert desk.does("back", branch="0", place=back[0][0]).page.heading == "Turn the boiler off and let it cool"
