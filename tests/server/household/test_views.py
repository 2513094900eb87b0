import re

import pytest
from starlette.testclient import TestClient

from kb.article import Audience
from kb.guide import none_of
from kb.reference import heard
from server.site import Site
from tests.server.conftest import MOVED_OUT, SEALED
from tests.server.html import Page

HOME = f"/h/{SEALED.key}"

EVERY_PAGE = [
    "/",
    "/danger",
    "/find?words=no+hot+water",
    "/find?words=",
    "/find?code=L1",
    "/h",
    "/h?key=nonsense",
    "/help/low-pressure",
    "/help/low-pressure/none",
    "/help/low-pressure/garbage",
    "/help/no-such-article",
    "/nowhere",
    f"/h/{MOVED_OUT.key}",
    HOME,
    f"{HOME}/help/low-pressure/none",
    f"{HOME}/find?words=gauge",
]


def get(client: TestClient, address: str, status: int = 200) -> Page:
    response = client.get(address)
    assert response.status_code == status, response.text
    return Page(response.text)


@pytest.mark.parametrize("address", EVERY_PAGE)
def test_every_page_has_the_way_to_the_danger_questions_and_the_numbers(client: TestClient, address: str) -> None:
    page = Page(client.get(address).text)

    assert page.links["Gas smell? Alarm? Feeling ill?"].endswith("/danger")
    # RFC 3966: a number dialled in the country only is local and has a context; this one cannot be dialled from abroad.
    assert page.links["gas emergency line 0800 111 999"].startswith("tel:")
    assert page.links["01632 960123"] == "tel:+441632960123"


@pytest.mark.parametrize("address", EVERY_PAGE)
def test_every_page_needs_no_script_and_allows_none(client: TestClient, address: str) -> None:
    response = client.get(address)

    assert "script" not in Page(response.text).tags
    assert "style=" not in response.text
    policy = response.headers["content-security-policy"]
    assert policy.startswith("default-src 'none'")
    assert "script" not in policy
    assert "set-cookie" not in response.headers


def test_a_walk_begins_with_all_danger_questions_and_one_none_of_these(client: TestClient, site: Site) -> None:
    page = get(client, "/help/low-pressure")

    assert site.library.danger is not None
    for step in site.library.danger.steps:
        if step.audience is Audience.HOUSEHOLD:
            assert step.title in page.words
    assert page.links["None of these. I am sure."] == f"/help/low-pressure/{none_of(site.library)}"


def test_a_yes_to_a_danger_question_says_what_to_do_and_whom_to_call(client: TestClient) -> None:
    questions = get(client, "/danger")
    yes = next(href for words, href in questions.links.items() if words.startswith("Can you smell gas"))

    page = get(client, yes)

    assert page.heading == "Get out: smell of gas"
    assert page.links["0800 111 999"].startswith("tel:")


def test_one_step_is_shown_with_its_answers_and_the_way_back(client: TestClient) -> None:
    first = get(client, "/help/low-pressure/none")
    answers = {words: href for words, href in first.links.items() if href.startswith("/help/low-pressure/none-")}

    second = get(client, next(iter(answers.values())))

    assert len(answers) >= 2
    assert second.heading != first.heading
    assert "/help/low-pressure/none" in second.links.values()
    assert first.heading in second.words


def test_what_a_home_is_known_to_have_is_not_asked(client: TestClient) -> None:
    asked = get(client, "/help/low-pressure/none").heading
    known = get(client, f"{HOME}/help/low-pressure/none").heading

    assert asked == "Does your boiler have a pressure gauge?"
    assert known != asked


def reading_step(client: TestClient) -> str:
    """The address of the first step that asks for the gauge, in the home."""
    address = f"{HOME}/help/low-pressure/none"
    for _ in range(10):
        response = client.get(address)
        if 'name="reading"' in response.text:
            return address
        address = next(href for href in Page(response.text).links.values() if href.startswith(address + "-"))
    raise AssertionError("the walk never asks for the gauge")


def test_a_typed_reading_takes_the_walk_on(client: TestClient) -> None:
    address = reading_step(client)

    response = client.get(address, params={"reading": "0,6 bar"})

    assert response.status_code == 303
    onward = response.headers["location"]
    assert onward.endswith("~0.6")
    assert "(0.6 bar)" in get(client, onward).words
    assert "The needle shows 0.6 bar" in client.get(onward).text


@pytest.mark.parametrize("typed", ["", "full", "99", "-1", "1.2.3", "٣", "<b>", "\x00"])
def test_a_figure_that_cannot_be_used_is_asked_for_again(client: TestClient, typed: str) -> None:
    address = reading_step(client)

    response = client.get(address, params={"reading": typed})

    assert response.status_code == 422
    assert "Please type the figure on the gauge, such as 1.2" in response.text
    assert "<b>”" not in response.text


def test_the_gauge_is_drawn_with_the_homes_own_marks(client: TestClient) -> None:
    text = client.get(reading_step(client)).text

    assert "marks at 0.9 (low), 1.3 (aim for this) and 1.9 (high)" in text


def test_an_end_has_the_number_the_hours_and_a_text_ready(client: TestClient, site: Site) -> None:
    address = "/help/low-pressure/none"
    while True:
        response = client.get(address)
        links = Page(response.text).links
        onward = [href for href in links.values() if href.startswith(address + "-")]
        if not onward:
            break
        address = onward[-1]

    text = next(href for href in links.values() if href.startswith("sms:"))
    # RFC 5724: sms:, the recipient, and one percent-encoded body.
    assert re.fullmatch(r"sms:\+447700900123\?body=[\w.%~-]+", text)
    assert "Open now" in response.text


def test_a_homes_page_shows_the_appliance_the_marks_and_where_things_are(client: TestClient) -> None:
    page = get(client, HOME)

    assert "Marlpit C 28" in page.words
    assert "under the kitchen sink" in page.words


def test_a_homes_pages_are_kept_by_nobody_and_a_public_page_is(client: TestClient) -> None:
    home, public = client.get(f"{HOME}/help/low-pressure/none"), client.get("/help/low-pressure/none")

    assert home.headers["cache-control"] == "no-store"
    assert home.headers["referrer-policy"] == "same-origin"
    assert "etag" not in home.headers
    assert public.headers["cache-control"].startswith("public")
    assert client.get("/help/low-pressure/none", headers={"if-none-match": public.headers["etag"]}).status_code == 304


def test_a_changed_home_is_shown_as_it_is_now(client: TestClient, site: Site) -> None:
    from dataclasses import replace

    from kb.facts import Known

    before = client.get(f"{HOME}/help/low-pressure/none").text
    site.store.put(replace(SEALED, known=Known({"system": "vented"})))

    assert client.get(f"{HOME}/help/low-pressure/none").text != before


@pytest.mark.parametrize(
    ("address", "status", "said"),
    [
        ("/nowhere", 404, "This page is not here"),
        ("/help/no-such-article", 404, "This page is not here"),
        ("/help/ends", 404, "This page is not here"),
        ("/help/on-arrival", 404, "This page is not here"),
        ("/h/23479-23479-23479", 404, "This page is not here"),
        ("/h/%00", 404, "This page is not here"),
        (f"/h/{MOVED_OUT.key}", 410, "This card is no longer in use"),
        (f"/h/{MOVED_OUT.key}/help/low-pressure/none", 410, "This card is no longer in use"),
        ("/h?key=23479", 422, "This is not a key from one of our cards"),
        ("/help/low-pressure/%00", 422, "cannot be read"),
        ("/help/low-pressure/none-zzz", 422, "no longer in our guidance"),
        ("/help/low-pressure/" + "none-" * 80, 422, "too long to be real"),
    ],
)
def test_what_cannot_be_answered_says_so_with_the_next_step(
    client: TestClient, address: str, status: int, said: str
) -> None:
    assert said in get(client, address, status).words


def test_a_home_from_another_home_is_not_let_in_by_a_key_in_lower_case(client: TestClient) -> None:
    assert client.get(f"/h/{SEALED.key.lower()}").status_code == 404
    opened = client.get("/h", params={"key": SEALED.key.lower().replace("-", " ")})
    assert opened.headers["location"] == HOME


@pytest.mark.parametrize("words", ["", "?*~", "x" * 10_000, "\x00", "‮مرحبا", "🔥" * 200, '" OR *'])
def test_any_words_can_be_searched_for(client: TestClient, words: str) -> None:
    assert client.get("/find", params={"words": words}).status_code == 200


def test_danger_words_show_the_danger_panel_first(client: TestClient) -> None:
    page = get(client, "/find?words=the+bill+is+high+and+it+smells+of+gas+in+here")

    assert page.words.index("Can you smell gas, or hear it hiss?") < page.words.index("Other words")
    assert get(client, page.links["Yes, or not sure: what to do"]).heading == "Get out: smell of gas"


def test_a_code_leads_to_its_fault_and_an_unknown_one_to_what_is_seen(client: TestClient, site: Site) -> None:
    code = next(code for code in site.ranges["marlpit-c"].codes if code.category == "low-pressure")

    known = get(client, f"{HOME}/find?code={code.code}")
    unknown = get(client, f"{HOME}/find?code=QQ99")

    assert f"{HOME}/help/low-pressure" in known.links.values()
    assert unknown.heading == "We do not know that code"
    assert f"{HOME}/help/low-pressure" in unknown.links.values()


def test_a_code_that_may_have_been_misread_shows_every_reading(client: TestClient) -> None:
    page = get(client, f"{HOME}/find?code=28")

    assert "if it shows 29" in page.words
    assert "We do not know the code 28." in page.words
    assert "It may be no code at all, but the water temperature, 28 degrees." in page.words
    assert "Look again in good light." in page.words


def test_words_come_before_the_code_they_disagree_with(client: TestClient) -> None:
    links = list(get(client, f"{HOME}/find?words=code+23+but+the+radiators+are+cold").links.values())

    assert links.index(f"{HOME}/help/cold-radiators") < links.index(f"{HOME}/help/low-pressure")


def test_a_code_of_danger_shows_the_danger_panel(client: TestClient) -> None:
    page = get(client, "/find?code=q57")

    assert "Is an alarm sounding? Do you feel ill? Are there fumes or soot?" in page.words


def test_where_an_engineers_code_is_as_plausible_no_path_leads_to_a_reset(client: TestClient) -> None:
    page = get(client, f"{HOME}/find?code=44")

    assert "If it shows 74 or 77, a Marlpit C needs an engineer. Do not reset. Call us today." in page.words
    assert "It may also show 47 or 97. Until you are sure, do not reset." in page.words
    assert "if it shows 97" in page.words
    assert "if it shows 47" not in page.words


def test_a_code_field_with_words_leads_on_by_them(client: TestClient) -> None:
    page = get(client, f"{HOME}/find?code=radiators+cold")

    assert "We do not know that code. Go by what you see instead." in page.words
    assert f"{HOME}/help/cold-radiators" in page.links.values()


def test_a_code_that_only_an_engineer_can_help_with_says_so(client: TestClient) -> None:
    assert "needs an engineer. Do not reset. Call us today." in get(client, f"{HOME}/find?code=74").words


def test_no_page_of_any_walk_shows_an_engineers_words(client: TestClient, site: Site) -> None:
    hidden = [step.title for step in site.library.steps() if step.audience is Audience.ENGINEER]
    hidden += [cause.name for article in site.library.articles.values() for cause in article.causes]
    household = [step for step in site.library.steps() if step.audience is Audience.HOUSEHOLD]
    said = [(step.title, *(b.text for b in step.body), *(a.text for a in step.answers)) for step in household]
    theirs = " ".join(words for step in said for words in step)
    hidden = [words for words in hidden if words not in theirs and len(words) > 12]
    for article in site.library.faults():
        address = f"/help/{article.id}/none"
        for _ in range(4):
            response = client.get(address)
            assert not [words for words in hidden if words in response.text], address
            onward = [href for href in Page(response.text).links.values() if href.startswith(address + "-")]
            if not onward:
                break
            address = onward[0]
    assert hidden


def test_two_faults_that_fit_as_well_are_settled_by_a_question(client: TestClient) -> None:
    page = get(client, "/find?words=rads+are+not+working")

    assert page.heading == "Are all the radiators cold?"
    assert "Or which is nearest?" in page.words
    assert page.links["All of them"] == "/help/no-heating"


def test_the_firm_fits_into_a_phone_and_a_home_offers_it(client: TestClient) -> None:
    assert Page(client.get(HOME).text).links["Keep our number in your phone"] == "/firm.vcf"

    card = client.get("/firm.vcf")

    assert card.headers["content-type"] == "text/vcard; charset=utf-8"
    assert "tel:+441632960123" in card.text
    assert "ring 0800 111 999 first" in card.text.replace("\r\n ", "")


def test_whoever_is_stuck_in_the_middle_can_read_out_where_they_stand(client: TestClient, site: Site) -> None:
    first = get(client, f"{HOME}/help/low-pressure/none")
    assert "Read this out" not in first.words
    question = get(client, first.links["It is off and cool"])

    spoken = re.search(r"Ringing us\? Read this out: ([0-9A-Z ]+?) Then nobody", question.words)
    assert spoken
    assert heard(site.library, spoken[1], site.known(SEALED)).article == "low-pressure"
