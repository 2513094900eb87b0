"""Asking to be called, as a browser without scripts does it."""

import re

import pytest
from starlette.testclient import TestClient

from kb.article import End, Pace
from kb.callback import offers_call
from kb.guide import none_of
from kb.reference import heard
from server.site import Site
from server.store.requests import MOST_FOR_A_NUMBER, MOST_FROM_AN_ADDRESS
from tests.server.conftest import MOVED_OUT, SEALED, WEDNESDAY_NOON
from tests.server.household.asking import form_in, kept, send
from tests.server.household.ends import end_of_pace, end_where
from tests.server.html import Page

HOME = f"/h/{SEALED.key}"


def test_every_end_that_is_no_emergency_offers_the_call_and_no_other_does(client: TestClient, site: Site) -> None:
    for offers in (True, False):
        seen = set()
        for pace in Pace:

            def fits(end: End, pace: Pace = pace, offers: bool = offers) -> bool:
                return end.pace is pace and offers_call(end) is offers

            try:
                address = end_where(site.library, fits)
            except AssertionError:
                continue
            seen.add(pace)
            assert ("Ask us to call you" in Page(client.get(address).text).links) is offers
        assert seen == ({*Pace} - {Pace.LEAVE} if offers else {Pace.LEAVE})


@pytest.mark.parametrize("pace", [Pace.MAKE_SAFE, Pace.TODAY])
def test_where_it_presses_the_number_comes_first_and_ringing_is_said_to_be_quicker(
    client: TestClient, site: Site, pace: Pace
) -> None:
    address = end_where(site.library, lambda end: end.pace is pace and end.call == "firm")
    shown, form = client.get(address).text, client.get(f"{address}/call-me").text

    assert shown.index('class="call big"') < shown.index("Ask us to call you") < shown.index("Ringing us is quicker.")
    assert form.index("Ringing us is quicker:") < form.index("01632 960123") < form.index("<form")


def test_what_can_wait_is_not_hurried(client: TestClient, site: Site) -> None:
    address = end_of_pace(site.library, Pace.ROUTINE)

    assert "quicker" not in client.get(address).text
    assert "quicker" not in client.get(f"{address}/call-me").text


def test_an_end_of_danger_has_no_form_though_somebody_types_its_address(client: TestClient, site: Site) -> None:
    address = end_of_pace(site.library, Pace.LEAVE)

    for base in ("", HOME):
        asked = client.get(f"{base}{address}/call-me")
        assert (asked.status_code, asked.headers["location"]) == (303, base + address)
        sent = client.post(f"{base}{address}/call-me", data={"form": "0" * 32, "phone": "01632 960001"})
        assert (sent.status_code, sent.headers["location"]) == (303, base + address)
    assert kept(site) == ()


@pytest.mark.parametrize("trail", ["none", "garbage", "none-zzz"])
def test_a_trail_that_has_not_ended_leads_back_to_it(client: TestClient, trail: str) -> None:
    asked = client.get(f"/help/low-pressure/{trail}/call-me")

    assert (asked.status_code, asked.headers["location"]) == (303, f"/help/low-pressure/{trail}")


def test_the_danger_line_stays_on_top_and_nothing_is_a_script_or_a_cookie(client: TestClient, end: str) -> None:
    form = client.get(f"{end}/call-me")
    received = client.get(send(client, end).headers["location"])
    wrong = send(client, end, phone="12")

    for page in (form, received, wrong):
        shown = Page(page.text)
        assert shown.links["Gas smell? Alarm? Feeling ill?"] == "/danger"
        assert shown.links["gas emergency line 0800 111 999"].startswith("tel:")
        assert "script" not in shown.tags
        assert "set-cookie" not in page.headers
        assert page.headers["content-security-policy"].startswith("default-src 'none'")
        assert page.headers["cache-control"] == "no-store"


def test_the_form_asks_nothing_about_health(client: TestClient, end: str) -> None:
    text = client.get(f"{end}/call-me").text

    fields = set(re.findall(r'<input[^>]* name="(\w+)"', text))
    assert fields == {"form", "phone", "name", "reach", "consent", "website"}
    assert "textarea" not in text
    assert "Do not write it here. Say so when we ring." in text


def test_what_was_asked_is_kept_and_the_household_sees_when_to_expect_a_call(
    client: TestClient, site: Site, end: str
) -> None:
    sent = send(client, end, name=" Any \n Person ", consent="yes", reach="afternoon")
    assert sent.status_code == 303
    received = Page(client.get(sent.headers["location"]).text)

    (request,) = kept(site)
    assert received.heading == "We have your request"
    assert request.reference in received.words
    assert "We call you in our opening hours: today until 17:00." in received.words
    assert "We ring the number that ends in 001. We have your answers too." in received.words
    assert (request.asked.name, request.asked.phone, request.asked.pace) == ("Any Person", "+441632960001", Pace.TODAY)


def test_with_consent_the_very_trail_goes_along(client: TestClient, site: Site, home_end: str) -> None:
    send(client, HOME + home_end, consent="yes")

    tried = kept(site)[0].asked.tried
    assert tried is not None
    article, trail = home_end.split("/")[2:]
    assert (tried["article"], tried["trail"], tried["home"]) == (article, trail, SEALED.key)
    assert tried["told"][0]["answer"] == "None of these"
    taken = heard(site.library, tried["reference"], site.known(SEALED))
    assert (taken.article, taken.trail, taken.slip) == (article, trail.replace("none", none_of(site.library)), None)


def test_without_consent_only_the_request_goes(client: TestClient, site: Site, home_end: str) -> None:
    sent = send(client, HOME + home_end)

    assert kept(site)[0].asked.tried is None
    assert "Your answers were not sent." in client.get(sent.headers["location"]).text


@pytest.mark.parametrize("typed", ["", "12", "my number", "999", "01632 960123", "<b>1</b>"])
def test_a_number_that_cannot_be_rung_is_told_beside_its_field_and_all_else_stays(
    client: TestClient, site: Site, end: str, typed: str
) -> None:
    answer = send(client, end, phone=typed, name="Any Person", consent="yes", reach="morning")

    assert answer.status_code == 422
    assert 'aria-invalid="true" aria-describedby="phone-wrong"' in answer.text
    assert re.search(r'id="phone-wrong">We need a (phone )?number', answer.text)
    assert 'value="Any Person"' in answer.text
    assert 'name="consent" value="yes" checked' in answer.text
    assert 'value="morning" checked' in answer.text
    assert "<b>1" not in answer.text
    assert kept(site) == ()


def test_the_same_form_sent_twice_is_one_request(client: TestClient, site: Site, end: str) -> None:
    form = form_in(client, end)
    first, again = (client.post(f"{end}/call-me", data=form) for _ in range(2))

    assert first.headers["location"] == again.headers["location"]
    assert len(kept(site)) == 1


def test_the_same_form_with_a_number_put_right_is_not_lost(client: TestClient, site: Site, end: str) -> None:
    form = form_in(client, end)
    for phone in ("01632 960001", "01632 960002"):
        client.post(f"{end}/call-me", data=form | {"phone": phone})

    assert [request.asked.phone for request in kept(site)] == ["+441632960001", "+441632960002"]


def test_a_form_without_its_number_is_shown_again_to_be_sent_again(client: TestClient, site: Site, end: str) -> None:
    answer = client.post(f"{end}/call-me", data={"phone": "01632 960001", "form": "x"})

    assert answer.status_code == 422
    assert "Please look it over and send it again." in answer.text
    assert 'value="01632 960001"' in answer.text
    assert kept(site) == ()


def test_what_fills_in_every_field_is_told_what_a_person_would_need_to_know(
    client: TestClient, site: Site, end: str
) -> None:
    answer = send(client, end, website="https://elsewhere.example")

    assert answer.status_code == 422
    assert "nothing was sent yet. Please send it again, or ring us." in answer.text
    assert 'value="https://elsewhere.example"' not in answer.text
    assert kept(site) == ()


@pytest.mark.parametrize("most", [MOST_FOR_A_NUMBER, MOST_FROM_AN_ADDRESS])
def test_too_many_are_asked_politely_to_ring(client: TestClient, site: Site, end: str, most: int) -> None:
    def phone(number: int) -> str:
        return "01632 960001" if most == MOST_FOR_A_NUMBER else f"01632 9600{number:02}"

    assert [send(client, end, phone=phone(number)).status_code for number in range(most)] == [303] * most
    refused = send(client, end, phone=phone(99))

    assert refused.status_code == 429
    assert "Please ring us: 01632 960123." in refused.text
    assert len(kept(site)) == most


def test_a_withdrawn_key_asks_for_nothing(client: TestClient, end: str) -> None:
    assert client.get(f"/h/{MOVED_OUT.key}{end}/call-me").status_code == 410
    assert client.post(f"/h/{MOVED_OUT.key}{end}/call-me", data={"phone": "1"}).status_code == 410


def test_what_nobody_sent_was_not_received(client: TestClient, end: str) -> None:
    assert client.get(f"{end}/call-me/{'0' * 32}").status_code == 404
    assert client.get(f"{end}/call-me/%00").status_code == 404


def test_what_is_done_is_shown_as_done(client: TestClient, site: Site, end: str) -> None:
    address = send(client, end).headers["location"]
    site.store.requests.finish(kept(site)[0].id, "Wren", WEDNESDAY_NOON)

    assert Page(client.get(address).text).heading == "We have called you"


def test_nothing_of_who_asked_stands_in_an_address_or_on_the_page_after(
    client: TestClient, end: str, caplog: pytest.LogCaptureFixture
) -> None:
    address = send(client, end, name="Any Person").headers["location"]

    assert not [word for word in ("Any", "Person", "1632", "960001") if word in address]
    assert "Any Person" not in client.get(address).text
    assert "Any Person" not in caplog.text
