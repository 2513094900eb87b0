from datetime import UTC, date, datetime

import pytest

from kb.appointment import CAUTION, OFF, Appointment, NotMade, Window, said
from kb.desk.events import Did, Event
from kb.visit.job import Job
from tests.kb.visit.building import NOON
from tests.server.conftest import SEALED
from tests.server.engineer.conftest import csrf, write
from tests.server.engineer.visiting import PLAIN, booked, job_of, taken, write_all

THURSDAY = Appointment(
    Window(date(2026, 11, 26), 480, 720), "Robin", by="Wren", at=datetime(2026, 11, 25, 9, tzinfo=UTC)
)


def agreed(site):
    assert THURSDAY.at
    site.store.calls.add("call-1", Event("agreed", THURSDAY.at, "Wren", Did.BOOKED, said(THURSDAY)))


def gone(client, visit, what, **form):
    return client.post(f"{visit}/site", data={"csrf": csrf(client), "gone": what, "stood": "1", **form})


@pytest.fixture
def visit(engineer, site):
    booked(site)
    agreed(site)
    return taken(engineer)


def test_nobody_in_gives_the_visit_back_untaken_and_marked(engineer, site, visit):
    assert gone(engineer, visit, "again").headers["location"] == "/engineer/visits"
    (left,) = site.store.appointments.to_visit()
    assert (left.owner, left.agreed, left.missed.reason, left.missed.by) == ("", None, "nobody", "Robin")
    text = engineer.get("/engineer/visits").text
    assert "Take: " in text
    assert "Nobody was in: another time is to be agreed." in text
    assert "Nobody was in" in engineer.get(visit).text
    engineer.post("/engineer/visits", data={"csrf": csrf(engineer), "job": job_of(site, visit).id})
    assert engineer.get(f"{visit}/site").status_code == 200


def test_it_is_not_needed_any_more(engineer, site, visit):
    assert gone(engineer, visit, "off", reason="works", words="she showed me").headers["location"] == "/engineer/visits"
    assert site.store.appointments.to_visit() == ()
    assert engineer.get(f"{visit}/site").headers["location"] == visit
    text = engineer.get(visit).text
    assert "Called off: it works again: not needed. she showed me Robin," in text
    assert "On site: checks" not in text
    assert job_of(site, visit).closed is None
    assert site.store.jobs.tally("ignition-failure").jobs == 0
    assert taken(engineer).endswith("lacking=off")


@pytest.mark.parametrize(
    ("what", "form"), [("off", {}), ("off", {"reason": "bored"}), ("nothing", {"reason": "works"})]
)
def test_what_says_no_reason_leaves_it(engineer, site, visit, what, form):
    assert gone(engineer, visit, what, **form).status_code == 422
    assert job_of(site, visit).by == "Robin"


def test_one_that_may_be_about_danger_wants_words(engineer, site, visit):
    assert CAUTION not in engineer.get(f"{visit}/site").text
    site.store.calls.add("call-1", Event("yes", NOON, "Wren", Did.ASKED, {"step": "do-you-smell-gas", "answer": "yes"}))
    assert CAUTION in engineer.get(f"{visit}/site").text
    assert gone(engineer, visit, "off", reason="nobody", words="rang").status_code == 422
    assert write(engineer, visit, "gone", "off nobody 1 rang").status_code == 422
    assert site.store.appointments.one("c-call-1")
    assert write(engineer, visit, "gone", "off nobody 1 neighbour and landlord rang").status_code == 200
    assert site.store.appointments.to_visit() == ()


def test_what_a_phone_kept_is_done_once_when_it_arrives(engineer, site, visit):
    for _ in range(2):
        answer = write(engineer, visit, "gone", "again nobody 1", id="entry-00001").json()
        assert (answer["kept"], answer["closed"]) == ("entry-00001", "/engineer/visits")
    (left,) = site.store.appointments.to_visit()
    assert [type(each) for each in site.store.appointments.trail(left)] == [Appointment, NotMade]


def test_what_arrives_after_it_was_agreed_anew_changes_nothing(engineer, site, visit):
    friday = Appointment(Window(date(2026, 11, 27), 480, 720), "Robin", by="Wren", at=NOON)
    site.store.appointments.move("c-call-1", friday, "moved")
    assert write(engineer, visit, "gone", "off works 1").status_code == 200
    (left,) = site.store.appointments.to_visit()
    assert left.agreed == friday


@pytest.mark.parametrize("text", ["", "off", "off works", "off works 1\0", "x works 1", "again works 1", "off bored 1"])
def test_what_no_page_of_ours_would_send_is_refused(engineer, site, visit, text):
    assert write(engineer, visit, "gone", text).status_code == 422
    assert job_of(site, visit).by == "Robin"


def test_whoever_found_something_unsafe_closes_the_job_instead(engineer, site, visit):
    write(engineer, visit, "unsafe", "yes")
    assert gone(engineer, visit, "off", reason="works", words="it works again now").status_code == 422
    assert site.store.appointments.one("c-call-1")


def test_work_that_arrives_after_the_desk_called_it_off_closes_the_job(engineer, site, visit):
    site.store.appointments.leave("c-call-1", NotMade(OFF, "works", "", "Wren", NOON), "off")
    news = write_all(engineer, visit, {**PLAIN, "close": "now"})
    assert news[-1]["closed"] == visit
    assert "How it was closed" in engineer.get(visit).text
    assert site.store.jobs.tally("ignition-failure").jobs == 1


def test_a_visit_without_a_call_is_left_too(engineer, site):
    site.store.jobs.begin(Job("job-1", "noise", NOON, "Robin", SEALED.key, range="marlpit-c"))
    assert gone(engineer, "/engineer/visits/job-1", "off", reason="not-wanted", stood="0").status_code == 303
    assert site.store.appointments.to_visit() == ()
