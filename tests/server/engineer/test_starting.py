from tests.server.conftest import SEALED
from tests.server.engineer.conftest import begin, write


def test_a_home_is_found_by_its_key_and_by_its_appliance(engineer):
    for sought in (SEALED.key.lower(), "marlpit"):
        page = engineer.get("/engineer", params={"find": sought}).text
        assert f'name="key" value="{SEALED.key}"' in page


def test_nothing_found_is_said(engineer):
    assert "No home was found" in engineer.get("/engineer", params={"find": "zzz"}).text


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
