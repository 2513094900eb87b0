"""The office finds, reads and changes a home."""

import re
from datetime import date

import pytest

from kb.facts import FACTS, LIMIT_NAMES, TRIED
from kb.register import Need, read_phone
from server.office.forms import FACT_HINTS, FACT_WORDS
from server.store.register import Did
from tests.registers import FIRST, SECOND, anna, record
from tests.server.html import Page

HOME = f"/office/homes/{FIRST}"


@pytest.mark.parametrize("typed", ["01632 960 123", "0123", "zz99 3wz", "whitf", "mill lane", FIRST.lower()])
def test_a_home_is_found_by_whatever_somebody_has_of_it(office, typed):
    assert office.post("/office/find", find=typed).headers["location"] == HOME


def test_several_homes_are_listed_under_an_address_without_what_was_typed(office):
    office.site.store.register.put(record(SECOND, anna()), "test")
    there = office.post("/office/find", find="whitfield").headers["location"]
    assert sorted(there.removeprefix("/office/found/").split(".")) == sorted([FIRST, SECOND])
    assert "2 homes found" in Page(office.get(there).text).words


def test_what_is_not_found_is_told_and_what_was_typed_stays(office):
    page = office.post("/office/find", find="nobody")
    assert (page.status_code, 'value="nobody"' in page.text) == (404, True)


def test_a_homes_page_tells_everything_and_dials(office):
    page = office.get(HOME)
    words = Page(page.text).words
    for each in ("Anna Whitfield", "Is over 65", "Ask again by 5 January 2027", "14 Mill Lane", "Marlpit C 30",
                 "Warranty ends", "4 October 2030", "low 0.7, aim 1.1, high 1.9", "under the sink", "rented",
                 "Replace by 1 May 2031"):  # fmt: skip
        assert each in words, each
    assert Page(page.text).links["01632 960123"] == "tel:+441632960123"


def test_a_need_that_is_late_says_so(office):
    office.site.store.register.put(
        record(SECOND, anna().__class__("Jo", needs=(Need("power", date(2025, 1, 1)),))), "test"
    )
    assert "Ask again now." in Page(office.get(f"/office/homes/{SECOND}").text).words


def test_every_look_at_a_home_leaves_its_trace(office):
    office.get(HOME)
    trail = office.site.store.register.trail(FIRST)
    assert (trail[-1].by, trail[-1].did) == ("Wren", Did.READ)
    told = Page(office.get(f"{HOME}/trail").text).words
    assert "Wren" in told
    assert "Whitfield" not in told.replace("14 Mill Lane", "")


@pytest.mark.parametrize("section", ["address", "appliances", "facts", "marks", "places", "alarms"])
def test_a_form_that_is_sent_as_it_was_shown_changes_nothing(office, section):
    before = office.record()
    assert office.save(f"{HOME}/{section}").headers["location"] == f"{HOME}#{section}"
    assert office.record() == before


@pytest.mark.parametrize(
    ("section", "field", "typed", "kept"),
    [
        ("address", "address.town", "Wickenthorpe", "Flat 2, 14 Mill Lane, Wickenthorpe, ZZ99 3WZ"),
        ("address", "address.postcode", "zz98 1ab", "Flat 2, 14 Mill Lane, Ashcombe, ZZ98 1AB"),
    ],
)
def test_an_address_is_changed(office, section, field, typed, kept):
    office.save(f"{HOME}/{section}", **{field: typed})
    assert office.record().address.spoken == kept


def test_a_wrong_field_is_told_where_it_stands_and_nothing_typed_is_lost(office):
    page = office.save(f"{HOME}/address", **{"address.postcode": "nowhere", "address.town": "Newly typed"})
    assert page.status_code == 422
    assert 'value="Newly typed"' in page.text
    assert 'value="nowhere"' in page.text
    assert 'id="address-postcode-error"' in page.text
    assert "Postcode: Expected a postcode" in " ".join(Page(page.text).links)
    assert office.record().address.town == "Ashcombe"


def test_two_who_change_one_part_at_once_are_told_and_the_second_may_insist(office):
    mine = office.get(f"{HOME}/address").text
    office.save(f"{HOME}/address", **{"address.town": "Theirs"})
    from tests.server.office.conftest import form_in

    page = office.client.post(f"{HOME}/address", data={**form_in(mine), "address.town": "Mine"})
    assert page.status_code == 422
    assert "somebody changed it meanwhile" in page.text
    assert office.record().address.town == "Theirs"
    office.client.post(f"{HOME}/address", data=form_in(page.text))
    assert office.record().address.town == "Mine"


def test_an_alarm_is_added_and_another_taken_out(office):
    office.save(
        f"{HOME}/alarms",
        **{
            "alarms[0].gone": "yes",
            "alarms[2].kind": "heat",
            "alarms[2].place": "kitchen",
            "alarms[2].ends": "1/2/2033",
        },
    )
    assert [(each.kind, each.place, each.ends) for each in office.record().alarms] == [
        ("co", "beside the boiler", None),
        ("heat", "kitchen", date(2033, 2, 1)),
    ]


def test_the_last_appliance_cannot_be_taken_out(office):
    page = office.save(f"{HOME}/appliances", **{"appliances[0].gone": "yes"})
    assert page.status_code == 422
    assert "at least the appliance the card is for" in page.text
    assert len(office.record().appliances) == 1


def test_marks_that_do_not_rise_are_told(office):
    assert "to rise" in office.save(f"{HOME}/marks", **{"marks.low": "2.0"}).text


def test_a_new_home_gets_a_key_and_everything_wrong_is_told_at_once(office):
    wrong = office.save("/office/new", **{"address.town": "Ashcombe", "people[0].phones[0]": "12"})
    assert wrong.status_code == 422
    for each in ("Words on the plate", "Phone 1", "Name", "House and street"):
        assert f"{each}: Expected" in wrong.text, each
    right = {
        "address.lines[0]": "1 Quarry Road",
        "address.postcode": "ZZ99 3WZ",
        "people[0].name": "Cleo Dunn",
        "people[0].phones[0]": "07700 900 321",
        "appliances[0].plate": "Marlpit C 28",
    }
    from tests.server.office.conftest import form_in

    made = office.client.post("/office/new", data={**form_in(wrong.text), **right})
    key = made.headers["location"].removeprefix("/office/homes/")
    kept = office.site.store.register.read(key, "test")
    assert kept.people[0].phones == (read_phone("07700900321", "GB"),)


def test_a_new_home_where_one_is_already_is_told_with_its_key(office):
    there = {"address.lines[0]": "flat 2", "address.lines[1]": "14 Mill Lane", "address.postcode": "zz993wz",
             "address.town": "Ashcombe", "appliances[0].plate": "Marlpit C 28"}  # fmt: skip
    told = office.save("/office/new", **there)
    assert (told.status_code, f"the one with the key {FIRST} at this address" in told.text) == (422, True)
    assert office.save("/office/new", **{**there, "address.lines[0]": "Flat 3"}).status_code == 303


def test_a_lost_card_gives_a_new_key_and_the_old_one_answers_410_with_the_firms_number(office):
    assert office.post(f"{HOME}/lost").status_code == 422
    there = office.post(f"{HOME}/lost", sure="yes").headers["location"]
    assert "The home has a new key." in office.get(there).text
    old = office.get(f"/h/{FIRST}")
    assert (old.status_code, "01632 960123" in old.text) == (410, True)
    assert office.get(HOME).status_code == 410


@pytest.mark.parametrize(
    "address", ["/office/homes/nonsense", f"/office/homes/{SECOND}", f"{HOME}/nothing", f"{HOME}/people/999"]
)
def test_what_is_not_there_is_not_found(office, address):
    assert office.get(address).status_code == 404


def test_only_the_office_comes_in(office, site, hash_of_password):
    from kb.staff import Account, Role
    from tests.server.conftest import WEDNESDAY_NOON

    site.store.staff.add(Account("Robin", frozenset({Role.DESK})), hash_of_password, WEDNESDAY_NOON)
    office.sign_in("Robin")
    pages = re.findall(
        r"\S+",
        f"/office {HOME} {HOME}/address {HOME}/trail /office/list /office/list/homes.csv /office/due /office/cards",
    )
    assert {office.get(page).status_code for page in pages} == {403}
    assert office.post(f"{HOME}/lost", sure="yes").status_code == 403


def test_every_fact_and_limit_has_a_name():
    assert set(FACT_WORDS) == set(FACTS)
    assert set(LIMIT_NAMES) == set(TRIED)
    assert set(FACT_HINTS) <= set(FACTS)
