"""Needs are asked about again within twelve months."""

import re
from datetime import date

from kb.register import Need
from tests.registers import FIRST, SECOND, anna, record
from tests.server.html import Page


def asked(office) -> list[tuple[str, str]]:
    return re.findall(r'name="person" value="(\d+)">\s*<input type="hidden" name="kind" value="([\w-]+)"',
                      office.get("/office/needs").text)  # fmt: skip


def late(office) -> tuple[str, str]:
    """Somebody whose consent is over a year old; today is 25 November 2026."""
    jo = anna().__class__("Jo Dunn", phones=("+441632960321",), needs=(Need("power", date(2025, 3, 1)), Need("over-65", date(2026, 6, 1))))  # fmt: skip # noqa: E501
    assert office.site.store.register.put(record(SECOND, jo), "test") == ()
    ((person, kind),) = asked(office)
    assert kind == "power"
    return person, kind


def needs(office) -> tuple[Need, ...]:
    return office.site.store.register.read(SECOND, "test").people[0].needs


def test_who_is_due_is_told_with_their_phone(office):
    late(office)
    page = Page(office.get("/office/needs").text)
    assert "Needs power for equipment by 1 March 2026 Late" in page.words
    assert page.links["01632 960321"] == "tel:+441632960321"
    assert page.links["Flat 2, 14 Mill Lane"] == f"/office/homes/{SECOND}#people"


def test_what_still_holds_is_asked_again_in_a_year(office):
    person, kind = late(office)
    said = office.post("/office/needs", key=SECOND, person=person, kind=kind, do="still")
    assert said.headers["location"] == "/office/needs"
    assert Need("power", date(2025, 3, 1), date(2026, 11, 25)) in needs(office)
    assert "Nobody is to be asked now." in Page(office.get("/office/needs").text).words


def test_what_no_longer_holds_is_taken_out_and_the_rest_stays(office):
    person, kind = late(office)
    office.post("/office/needs", key=SECOND, person=person, kind=kind, do="gone")
    assert needs(office) == (Need("over-65", date(2026, 6, 1)),)


def test_nothing_else_can_be_said(office):
    person, kind = late(office)
    before = needs(office)
    assert office.post("/office/needs", key=SECOND, person=person, kind=kind, do="other").status_code == 404
    assert office.post("/office/needs", key="nonsense", person=person, kind=kind, do="gone").status_code == 404
    office.post("/office/needs", key=FIRST, person=person, kind=kind, do="gone")
    assert needs(office) == before
