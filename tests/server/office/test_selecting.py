"""Homes chosen by range, what is due, place and card: listed, saved as a table, printed."""

import re

import pytest

from kb.listing import read_listing
from server.office.selecting import AT_ONCE
from tests.listings import generated
from tests.registers import FIRST
from tests.server.html import Page
from tests.server.office.test_lists import send


@pytest.fixture
def filled(office):
    assert "Imported: 240 new homes" in send(office, generated(240), "import").text
    return office


def chosen(office, query: str) -> str:
    return re.findall(r'<h2 id="found">(.*?)</h2>', office.get(f"/office/homes?{query}").text)[0]


@pytest.mark.parametrize(
    ("query", "homes"),
    [
        ("", "242 homes"),
        ("range=thornlea", "0 homes"),
        ("range=marlpit-c", "242 homes"),
        ("service=2026-10", "1 home"),
        # Every twelfth of the list is serviced in January 2027, and one home is late.
        ("service=2027-01", "21 homes"),
        # Every sixth has an alarm that ends in June 2027.
        ("alarm=2027-05", "0 homes"),
        ("alarm=2027-06", "40 homes"),
        ("place=ZZ99", "3 homes"),
        ("place=zz+99", "3 homes"),
        ("place=wickenth", "240 homes"),
        ("place=%25", "0 homes"),
        ("place=ashcombe&service=2026-10", "1 home"),
        ("card=some", "0 homes"),
        ("service=nonsense&card=nonsense", "242 homes"),
    ],
)
def test_homes_are_chosen(filled, query, homes):
    assert chosen(filled, query) == homes


def test_a_long_list_has_pages_and_each_home_stands_on_one(filled):
    seen: list[str] = []
    for page in ("1", "2", "3"):
        seen += re.findall(r'<tr><td><a href="/office/homes/([\w-]+)"', filled.get(f"/office/homes?page={page}").text)
    assert (len(seen), len(set(seen))) == (242, 242)
    assert len(re.findall(r"<tr><td>", filled.get("/office/homes").text)) == AT_ONCE
    assert filled.get("/office/homes?page=0").status_code == 404


def test_what_is_chosen_is_saved_as_a_table_that_changes_nothing_when_it_is_imported(filled):
    table = filled.get("/office/homes.csv?alarm=2027-06").text
    assert len(read_listing(table).rows) == 40
    assert "0 new homes, 0 changed, 40 as they were" in Page(send(filled, table, "import").text).words


def test_cards_of_what_is_chosen_are_printed_and_marked(filled):
    query = {"place": "ZZ20", "card": "none"}
    page = filled.get("/office/print?place=ZZ20&card=none").text
    many = int(re.findall(r"Print the cards of (\d+) homes", page)[0])
    assert filled.post("/office/print", size="a6", sheet="yes", **query).content.startswith(b"%PDF")
    assert chosen(filled, "card=some") == "0 homes"
    marks = re.findall(r'name="cards" value="([^"]*)"', page)[0]
    assert filled.post("/office/print/printed", cards=marks, size="a6", **query).status_code == 303
    assert chosen(filled, "card=some") == f"{many} homes"
    assert "Every printed card still says what is known." in filled.get("/office/cards").text


def test_a_home_whose_card_may_not_be_printed_is_named(office):
    office.save(f"/office/homes/{FIRST}/appliances", **{"appliances[0].range": ""})
    page = Page(office.get("/office/print?range=none").text)
    assert "Left out 1" in page.words
    assert page.links[FIRST] == f"/office/homes/{FIRST}/card"
    assert office.post("/office/print", size="a6", range="none").status_code == 422


def test_more_than_come_in_one_pdf_are_printed_in_parts(office):
    send(office, generated(601), "import")
    page = Page(office.get("/office/print?place=wickenthorpe&part=2").text)
    assert "They come in 2 parts" in page.words
    assert "Homes 501 to 601" in page.words
    assert office.get("/office/print?part=9999999999999").status_code == 404
