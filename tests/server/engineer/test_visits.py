import re

from kb.visit.job import Job
from tests.booking import WORDS, book
from tests.kb.visit.building import NOON
from tests.server.conftest import SEALED
from tests.server.engineer.visiting import ANSWERS, PLAIN, booked, job_of, taken, write_all


def test_a_booked_visit_waits_until_somebody_takes_it(engineer, site):
    booked(site)
    assert engineer.get("/engineer/visits").text.count("Take: ") == 1
    visit = taken(engineer)
    page = engineer.get("/engineer/visits").text
    assert "Take: " not in page
    assert f'href="{visit}"' in page
    assert (job_of(site, visit).by, job_of(site, visit).article) == ("Robin", "ignition-failure")


def test_a_visit_that_is_taken_twice_is_one_visit(engineer, site):
    booked(site)
    assert taken(engineer) == taken(engineer)


def test_what_is_known_of_the_home_goes_with_the_job(engineer, site):
    booked(site)
    job = job_of(site, taken(engineer))
    assert (job.key, job.range) == (SEALED.key, "marlpit-c")
    assert job.texts == {"unsafe-fuel": "natural-gas"}


def test_the_brief_says_all_that_the_call_brought_out(engineer, site):
    booked(site)
    text = engineer.get(taken(engineer)).text
    for words in (WORDS, "dog in the yard", "Marlpit C 28", "under the kitchen sink", "somebody (by noon)", "08:00"):
        assert words in text
    assert all(answer in text for answer in ANSWERS)
    assert re.search(r"<b>\d+ %</b> Electrode, lead or spark unit", text)
    assert "Bring: covers four chances in five" in text
    assert text.index("Begin with the arrival checks") < text.index("Hold the pressure through a try")


def test_the_brief_tells_what_was_found_before(engineer, site):
    booked(site)
    first = taken(engineer)
    write_all(engineer, first, {**PLAIN, "parts-used": "ignition-lead", "close": "now"})
    booked(site, id="call-2")
    text = engineer.get(taken(engineer, call="call-2")).text
    assert "Visit by Robin: Electrode, lead or spark unit, fixed. Used: ignition lead." in text
    assert "They rang. Booked." in text


def test_a_closed_visit_shows_how_it_was_closed(engineer, site):
    booked(site)
    visit = taken(engineer)
    write_all(engineer, visit, {**PLAIN, "close": "now"})
    text = engineer.get(visit).text
    assert "How it was closed" in text
    assert "<dd>45</dd>" in text
    assert engineer.get(f"{visit}/site").headers["location"] == visit


def test_a_call_whose_fault_nobody_found_asks_the_engineer_for_it(engineer, site):
    book(site.store, site.library, SEALED.key, article="")
    assert "No fault was found out" in engineer.get("/engineer/visits").text
    assert taken(engineer).endswith("lacking=fault")
    assert job_of(site, taken(engineer, fault="noise")).article == "noise"


def test_a_visit_without_a_call_begins_with_a_home_and_a_fault(engineer, site):
    assert f'value="{SEALED.key}"' in engineer.get("/engineer/visits?find=marlpit").text
    visit = taken(engineer, call="", key=SEALED.key, fault="noise")
    assert job_of(site, visit).call == ""
    assert engineer.get(visit).status_code == 200
    assert taken(engineer, call="", key="nonsense", fault="noise").endswith("lacking=home")


def test_a_fault_whose_article_is_gone_can_still_be_closed(engineer, site):
    site.store.jobs.begin(Job("gone", "no-such-fault", NOON, "Robin", SEALED.key, range="marlpit-c"))
    assert "no longer in the library" in engineer.get("/engineer/visits/gone").text
    assert engineer.get("/engineer/visits/gone/site").status_code == 200
    news = write_all(engineer, "/engineer/visits/gone", {**PLAIN, "cause": "none", "close": "now"})
    assert news[-1]["closed"]


def test_there_is_no_visit_of_that_name(engineer):
    assert engineer.get("/engineer/visits/another").status_code == 404


def test_nobody_sees_a_visit_who_is_no_engineer(client, site):
    booked(site)
    for address in ("/engineer/visits", "/engineer/visits/any", "/engineer/visits/any/site"):
        assert client.get(address).headers["location"].startswith("/staff/sign-in")


def test_the_worker_keeps_to_the_room_and_asks_nobody_else(engineer):
    answer = engineer.get("/engineer/worker.js")
    assert answer.headers["content-type"].startswith("text/javascript")
    assert "connect-src 'self'" in answer.headers["content-security-policy"]
    assert "service-worker-allowed" not in answer.headers


def test_what_is_learnt_changes_no_page_of_a_household(engineer, site):
    addresses = [f"/h/{SEALED.key}/help/ignition-failure/none", "/help/ignition-failure/none", f"/h/{SEALED.key}"]
    before = [engineer.get(address).text for address in addresses]
    for number in range(40):
        booked(site, id=f"call-{number}")
        write_all(engineer, taken(engineer, call=f"call-{number}"), {**PLAIN, "close": "now"})
    assert site.store.jobs.tally("ignition-failure").jobs == 40
    assert [engineer.get(address).text for address in addresses] == before
