"""Who looked at a home, and what one of our own people looked at."""

from server.office import trails
from server.store.register import Did
from tests.registers import FIRST, SECOND, record
from tests.server.html import Page

HOME = f"/office/homes/{FIRST}"


def test_what_one_did_again_on_a_day_is_one_line(office):
    for _ in range(3):
        office.get(HOME)
    words = Page(office.get(f"{HOME}/trail").text).words
    assert words.count("Wren looked") == 1
    assert "looked (4 times) address, people" in words


def test_what_an_account_looked_at_is_told_without_saying_who_lives_there(office):
    office.site.store.register.put(record(SECOND), "somebody else")
    office.get(HOME)
    page = Page(office.get("/office/looked?who=Wren").text)
    assert page.links[f"Marlpit C 30 {FIRST}"] == HOME
    assert SECOND not in page.words
    assert "Whitfield" not in page.words
    assert "Mill Lane" not in page.words
    assert SECOND in Page(office.get("/office/looked").text).words


def test_a_name_nobody_has_looked_at_nothing(office):
    assert "Nothing is noted of Nobody." in Page(office.get("/office/looked?who=Nobody").text).words


def test_the_way_further_back_leads_on(office):
    for _ in range(trails.AT_ONCE):
        office.site.store.register.read(FIRST, "Wren")
    page = Page(office.get("/office/looked?who=Wren").text)
    assert f"looked ({trails.AT_ONCE} times)" in page.words
    before = Page(office.get(page.links["Further back →"]).text).words
    assert "Nothing is noted of Wren." in before


def test_everything_that_can_be_done_has_words():
    assert set(trails.DID) == set(Did)
