"""Cards: one home's, and all that are no longer as they were printed."""

from dataclasses import replace
from datetime import timedelta

import pypdf

from kb.visit.job import Closed, Job
from server.store.register import Did
from tests.builders import firm
from tests.registers import FIRST
from tests.server.conftest import WEDNESDAY_NOON
from tests.server.html import Page
from tests.server.office.conftest import form_in

ELEVEN = WEDNESDAY_NOON - timedelta(hours=1)
HOME = f"/office/homes/{FIRST}"


def test_a_homes_card_is_made_and_marked_once_it_is_on_paper(office, tmp_path):
    made = office.get(f"{HOME}/card/a6.pdf")
    assert made.headers["content-type"] == "application/pdf"
    (tmp_path / "card.pdf").write_bytes(made.content)
    assert len(pypdf.PdfReader(tmp_path / "card.pdf").pages) == 2
    assert "None yet." in Page(office.get(f"{HOME}/card").text).words
    office.post(f"{HOME}/card/printed", size="a6")
    assert "A6: 25 November 2026" in Page(office.get(f"{HOME}/card").text).words
    assert "A6, 25 November 2026" in Page(office.get(HOME).text).words
    assert Did.PRINTED in {entry.did for entry in office.site.store.register.trail(FIRST)}


def changed(office) -> str:
    return Page(office.get("/office/cards").text).words


def test_a_card_whose_words_changed_is_listed_until_it_is_marked_again(office):
    office.post(f"{HOME}/card/printed", size="a6")
    assert "Every printed card still says what is known." in changed(office)
    office.save(f"{HOME}/places", **{"places.stop-tap": "under the stairs"})
    assert "What stands on it changed." in changed(office)
    assert office.post("/office/cards", size="a6").content.startswith(b"%PDF")
    assert "What stands on it changed." in changed(office)
    mark(office)
    assert "Every printed card still says what is known." in changed(office)


def mark(office) -> None:
    import re

    cards = re.findall(r'name="cards" value="([^"]*)"', office.get("/office/cards").text)[0]
    assert office.post("/office/cards/printed", cards=cards).status_code == 303


def test_a_persons_phone_is_on_no_card_and_changes_none(office):
    office.post(f"{HOME}/card/printed", size="a6")
    office.save(f"{HOME}/people/{office.record().people[0].id}", **{"people[0].phones[0]": "01632 960777"})
    assert "Every printed card still says what is known." in changed(office)


def test_a_new_key_wants_a_new_card(office):
    office.post(f"{HOME}/card/printed", size="a6")
    office.post(f"{HOME}/lost", sure="yes")
    assert "The home has a new key." in changed(office)


def test_a_moved_number_of_the_firm_changes_every_card(office):
    office.post(f"{HOME}/card/printed", size="a6")
    from server.office.press import press_for

    moved = replace(office.site, firm=firm(phones=[{"number": "01632 960555", "what": "office"}]))
    home = office.site.store.home(FIRST)
    assert press_for(moved).fingerprint(home, "a6") != press_for(office.site).fingerprint(home, "a6")


def test_a_home_that_may_not_have_a_card_is_told_why_and_where_to_change_it(office):
    office.save(f"{HOME}/appliances", **{"appliances[0].range": ""})
    for address in (f"{HOME}/card", f"{HOME}/card/a5", f"{HOME}/card/a6.pdf", f"{HOME}/card/a6-sheet.pdf"):
        told = office.get(address)
        assert (told.status_code, "is not among" in told.text) == (422, True)
        assert "<img" not in told.text
    page = Page(told.text)
    assert "This home: the appliance's range." in page.words
    assert page.links["Change it: This home: the appliance's range"] == f"{HOME}/appliances"
    assert office.get(f"{HOME}/card/a6-front.png").status_code == 404
    assert office.post(f"{HOME}/card/printed", size="a6").status_code == 422


def test_there_are_no_other_sizes_and_nothing_else_is_marked(office):
    for what in ("a0", "a0.pdf", "a6-top.png", "a6.png", "a6-front.pdf"):
        assert office.get(f"{HOME}/card/{what}").status_code == 404
    assert office.post("/office/cards/printed", cards="nonsense a:b:c").status_code == 303
    assert "None yet." in Page(office.get(f"{HOME}/card").text).words


def closed(office, **said: str) -> None:
    """A job at the home that was closed by an engineer."""
    jobs = office.site.store.jobs
    jobs.begin(Job("one", "noise", ELEVEN, "Robin", FIRST))
    jobs.close("one", Closed(ELEVEN, "Robin", "Scale", "fixed", "no", **said), {})


def test_a_card_that_an_engineer_found_wrong_is_listed_with_their_words_until_it_is_printed(office):
    office.post(f"{HOME}/card/printed", size="a6")
    (printed,) = office.site.store.lists.printed_of(FIRST)
    office.site.store.register.printed([replace(printed, when=ELEVEN - timedelta(days=9))], "Wren")
    closed(office, card="changed", card_words="A new filling loop, with levers")
    words = changed(office)
    assert "Robin, 25 November 2026: A new filling loop, with levers" in words
    assert "What stands on it changed." not in words
    mark(office)
    assert "Every printed card still says what is known." in changed(office)


def test_a_home_without_a_printed_card_is_listed_too(office):
    closed(office, card="changed", card_words="The valve was moved")
    words = changed(office)
    assert "No card was printed here yet" in words
    assert "Robin, 25 November 2026: The valve was moved" in words


def test_a_card_that_is_right_is_not_listed(office):
    closed(office, card="right")
    assert "Every printed card still says what is known." in changed(office)


def test_a_card_is_marked_in_the_size_that_is_shown(office):
    sent = form_in(office.get(f"{HOME}/card/id1").text)
    answered = office.post(f"{HOME}/card/printed", **{**sent, "csrf": office.csrf})
    assert answered.headers["location"] == f"{HOME}/card/id1"
    assert "Bank card: 25 November 2026" in Page(office.get(f"{HOME}/card").text).words


def test_a_place_that_the_card_has_no_room_for_is_named(office):
    places = ("gas-valve", "stop-tap", "switch", "condensate-end")
    office.save(f"{HOME}/places", **{f"places.{place}": "behind the panel " * 11 for place in places})
    words = Page(office.get(f"{HOME}/card/a5").text).words
    assert "Waste pipe: behind the panel" in words[words.index("No room for it in this size") :]
