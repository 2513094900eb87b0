"""A home's people: changed, shown what is held, forgotten."""

from datetime import date

import pytest

from kb.register import NEEDS, Need
from server.store.register import Did
from tests.registers import FIRST
from tests.server.html import Page

HOME = f"/office/homes/{FIRST}"


@pytest.fixture
def her(office) -> str:
    return f"{HOME}/people/{office.record().people[0].id}"


def need(kind: str, part: str) -> str:
    return f"people[0].needs[{list(NEEDS).index(kind)}].{part}"


def test_a_form_that_is_sent_as_it_was_shown_changes_nothing(office, her):
    before = office.record()
    assert office.save(her).headers["location"] == f"{HOME}#people"
    assert sorted(office.record().people[0].needs, key=str) == sorted(before.people[0].needs, key=str)
    assert office.record().people[1] == before.people[1]


def test_a_person_is_renamed_and_keeps_their_number(office, her):
    before = office.record().people[0].id
    office.save(her, **{"people[0].name": "Anna Oakes", "people[0].phones[0]": "01632 960 999"})
    anna = office.record().people[0]
    assert (anna.name, anna.id, anna.phones[0]) == ("Anna Oakes", before, "+441632960999")


def test_a_need_is_noted_with_the_day_it_was_agreed_to(office, her):
    told = office.save(her, **{need("warmth", "kind"): "warmth"})
    assert told.status_code == 422
    assert "the day they agreed" in told.text
    office.save(her, **{need("warmth", "kind"): "warmth", need("warmth", "consented"): "2026-11-20"})
    assert Need("warmth", date(2026, 11, 20)) in office.record().people[0].needs


def test_a_need_whose_tick_is_taken_away_is_gone(office, her):
    from tests.server.office.conftest import form_in

    fields = form_in(office.get(her).text)
    del fields[need("over-65", "kind")]
    office.client.post(her, data=fields)
    assert [each.kind for each in office.record().people[0].needs] == ["power"]


def test_days_without_a_tick_are_asked_about(office, her):
    told = office.save(her, **{need("warmth", "consented"): "2026-11-20"})
    assert told.status_code == 422
    assert "Choose the need" in told.text


def test_a_person_is_added(office):
    office.save(f"{HOME}/people/new", **{"people[0].name": "Cleo Dunn", "people[0].role": "agent"})
    assert [person.name for person in office.record().people] == ["Anna Whitfield", "Bram Oakes", "Cleo Dunn"]


def test_a_person_needs_a_name(office, her):
    assert office.save(f"{HOME}/people/new").status_code == 422
    assert office.save(her, **{"people[0].name": " "}).status_code == 422
    assert len(office.record().people) == 2


def test_a_form_with_nothing_in_it_takes_nobody_out(office, her):
    assert office.post(her).status_code == 422
    assert len(office.record().people) == 2


def test_somebody_is_shown_all_that_is_held_about_them_and_nobody_else(office, her):
    words = Page(office.get(f"{her}/held").text).words
    saved = office.get(f"{her}/held.txt")
    assert "attachment" in saved.headers["content-disposition"]
    for told in (words, saved.text):
        assert "Anna Whitfield" in told
        assert "+441632960123" in told
        assert "Bram Oakes" not in told
    assert office.site.store.register.trail(FIRST)[-1].did is Did.SHOWN


def test_somebody_is_forgotten_after_it_was_said_what_stays_and_why(office, her):
    id = office.record().people[0].id
    office.site.store.register.keep(FIRST, "gas-safety-record", date(2026, 10, 1), "test", id)
    asked = Page(office.get(f"{her}/forget").text).words
    assert "Gas Safety (Installation and Use) Regulations 1998" in asked
    assert office.post(f"{her}/forget").status_code == 422
    assert len(office.record().people) == 2
    done = Page(office.post(f"{her}/forget", sure="yes").text)
    assert done.heading == "Anna Whitfield is forgotten"
    assert "Gas Safety (Installation and Use) Regulations 1998" in done.words
    assert [person.name for person in office.record().people] == ["Bram Oakes"]
    assert office.get(her).status_code == 404


def test_a_person_of_another_home_is_not_reached(office, her):
    from tests.registers import SECOND, anna, record

    office.site.store.register.put(record(SECOND, anna()), "test")
    other = office.site.store.register.read(SECOND, "test").people[0].id
    for page in ("", "/held", "/held.txt", "/forget"):
        assert office.get(f"{HOME}/people/{other}{page}").status_code == 404, page
    assert office.post(f"{HOME}/people/{other}/forget", sure="yes").status_code == 404
