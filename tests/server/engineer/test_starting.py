import re

import pytest

from kb.register import Address, Appliance, Person, Record
from tests.server.conftest import SEALED
from tests.server.engineer.conftest import begin, csrf, found, write


def test_a_home_is_found_by_its_key_and_by_its_appliance(engineer):
    for sought in (SEALED.key.lower(), "marlpit"):
        page = found(engineer, sought).text
        assert f'name="key" value="{SEALED.key}"' in page


def test_nothing_found_is_said(engineer):
    answer = found(engineer, "zzz")
    assert answer.status_code == 404
    assert "No home was found" in answer.text
    assert 'value="zzz"' in answer.text


@pytest.mark.parametrize("room", ["/engineer", "/engineer/visits"])
@pytest.mark.parametrize("typed", ["marsh", "960111", "ZZ9 9"])
def test_what_was_typed_comes_into_no_address(engineer, site, room, typed):
    person = Person("Robin Marsh", phones=("+441632960111",))
    record = Record(SEALED.key, (Appliance("Marlpit C 28", "marlpit-c"),), SEALED.known, SEALED.places,
                    Address(("4 Any Street",), "Anytown", "ZZ9 9ZZ"), (person,))  # fmt: skip
    assert site.store.register.put(record, "office", site.store.register.things(SEALED.key)) == ()
    answer = engineer.post(f"{room}/find", data={"csrf": csrf(engineer), "find": typed})
    assert answer.headers["location"] == f"{room}/found/{SEALED.key}"
    for _ in range(2):
        assert "Robin Marsh, 4 Any Street" in engineer.get(answer.headers["location"]).text
    form = re.search(r'<form class="ask"[^>]*>', engineer.get(room).text)
    assert form is not None
    assert 'method="post"' in form[0]


def test_an_address_of_homes_that_are_gone_says_so(engineer):
    for keys in ("nonsense", "nonsense." * 40, "A2345-B2345-C2345"):
        assert engineer.get(f"/engineer/found/{keys}").status_code == 404


def test_a_record_that_waits_is_listed_with_how_much_is_left(engineer):
    record = begin(engineer, SEALED.key)
    before = engineer.get("/engineer").text
    assert f'href="{record}"' in before
    write(engineer, record, "serial", "0001", 50)
    after = engineer.get("/engineer").text
    assert before.count("still to fill in") == after.count("still to fill in") == 1
    assert left(after) == left(before) - 1


def left(page: str) -> int:
    return int(page.split(" still to fill in")[0].rsplit(">", 1)[1])


def test_settings_faults_and_calculations_lead_on(engineer):
    page = engineer.get("/engineer").text
    for address in ("/engineer/help/setting-bypass", "/engineer/help/low-pressure", "/engineer/sums"):
        assert f'href="{address}"' in page
