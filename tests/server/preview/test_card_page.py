"""A card's page: its sizes, what the pictures say, what is in the way, and long names."""

from dataclasses import replace

import pytest

from server.preview.fields import name_of
from tests.builders import firm
from tests.kb.card.cards import refusals
from tests.kb.card.printed import sizes
from tests.server.conftest import MOVED_OUT, SEALED
from tests.server.html import Page
from tests.server.preview.conftest import ROOMS, browsing

CARD = f"/engineer/homes/{SEALED.key}/card"


@pytest.mark.parametrize("room", ROOMS)
def test_a_homes_card_is_shown_in_a6_with_the_other_sizes_to_choose_and_its_pdfs(browser, room):
    here = f"{room}/homes/{SEALED.key}/card"
    page = Page(browser.text(here))
    assert page.links["Bank card"] == f"{here}/id1"
    assert page.links["A5, large print"] == f"{here}/a5"
    for name, pdf in (("PDF, A6", f"{here}/a6.pdf"), ("PDF on a sheet of A4, to be cut", f"{here}/a6-sheet.pdf")):
        assert page.links[name] == pdf
        assert browser.file(pdf, "application/pdf").startswith(b"%PDF")
    assert "not printed yet" not in page.words


def test_the_size_that_is_shown_is_marked(browser):
    assert f'href="{CARD}/a5" aria-current="page"' in browser.text(f"{CARD}/a5")


def test_a_picture_says_what_its_side_says(browser):
    (_, front), (_, back) = browser.pictures(CARD)
    assert front.startswith("Front of the card. DEMO.")
    assert "Smell gas, or the alarm sounds?" in front
    assert SEALED.key in front
    assert back.startswith("Back of the card. Smell, alarm or feeling ill? Turn the card over first.")
    assert "Never open the boiler's case." in back


def test_what_gave_way_for_want_of_room_is_listed(browser):
    assert "No room for it in this size" in Page(browser.text(f"{CARD}/a5")).words
    assert "No room for it in this size" not in Page(browser.text(f"{CARD}/id1")).words


def test_without_confirmed_numbers_the_page_says_which_are_missing_and_shows_no_card(shown_site):
    browser = browsing(replace(shown_site, firm=firm(emergency=[])))
    words = Page(browser.text(CARD, 422)).words
    assert "Our firm's file: the gas emergency number. Nobody has confirmed the gas number" in words
    assert "Our firm's file: the number of the emergency services." in words
    assert "firm.emergency.gas" in words
    assert browser.pictures(CARD, 422) == []
    assert "Nobody has confirmed" in browser.text(f"{CARD}/a6.pdf", 422)
    browser.text(f"{CARD}/a6-front.png", 404)


LONG = "Wickenthorpe Heating and Hot Water"


def name_size(browser, size: str, name: str) -> list[float]:
    """How large the pieces of the firm's name are printed."""
    runs = sizes(browser.file(f"{CARD}/{size}.pdf", "application/pdf"))
    return [points for words, points in runs if len(words.strip()) > 8 and words.strip() in name]


def test_a_long_name_of_the_firm_first_shrinks_then_wraps(shown_site):
    found = {}
    for name in ("Any Heating", LONG, f"{LONG} Engineers of Wickenthorpe"):
        browser = browsing(replace(shown_site, firm=firm(name=name)))
        assert len(browser.pictures(CARD)) == 2
        found[name] = name_size(browser, "a6", name)
    usual, shrunk, wrapped = found.values()
    assert (len(usual), len(shrunk), len(wrapped)) == (1, 1, 2)
    assert usual[0] > shrunk[0] >= wrapped[0] == 11


@pytest.mark.parametrize("size", ["a6", "id1", "a5"])
def test_a_name_that_does_not_fit_at_all_is_refused_and_named(shown_site, size):
    name = f"{LONG} Engineers of Wickenthorpe and of all the Villages that lie around it, by the River"
    browser = browsing(replace(shown_site, firm=firm(name=name)))
    words = Page(browser.text(f"{CARD}/{size}", 422)).words
    assert "Our firm's file: the name." in words
    assert "does not fit on two lines" in words
    assert "Give the firm a shorter name in its file." in words


@pytest.mark.parametrize(
    ("key", "status"), [(MOVED_OUT.key, 410), ("9EJFP-R992N-EKTAX", 404), (SEALED.key.lower(), 404)]
)
def test_a_key_that_opens_nothing_shows_no_card(browser, key, status):
    assert browser.client.get(f"/engineer/homes/{key}/card").status_code == status


def test_nobody_sees_a_card_who_did_not_sign_in(client):
    assert client.get(CARD).headers["location"].startswith("/staff/sign-in")
    assert client.get(f"{CARD}/a6-front.png").status_code == 303


def test_every_field_that_a_home_can_be_refused_for_has_a_name_in_words():
    fields = [*refusals(firm_=firm(emergency=[])), "home.facts.system", "home.places.stop-tap", "range.reset"]
    fields += ["articles: low-pressure, On the card", "region.orders.gas-smell", "words.NEVER", "firm.site"]
    assert all(name_of(field) != field and "." not in name_of(field) for field in fields)
