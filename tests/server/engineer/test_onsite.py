import pytest

from kb.handover.record import Entry
from kb.prose import Target
from tests.kb.visit.building import UNSAFE
from tests.server.engineer.conftest import csrf, write
from tests.server.engineer.visiting import PLAIN, booked, job_of, taken, write_all

FIRST = "answer:ignition-failure#begin-with-the-arrival-checks"
SECOND = "answer:ignition-failure#see-how-far-the-sequence-gets"
CHECKED = {"danger": "none", FIRST: "Arrival checks clear", SECOND: "Fan runs, no spark"}


@pytest.fixture
def visit(engineer, site) -> str:
    booked(site)
    return taken(engineer)


def post(client, visit: str, **form: str):
    return client.post(f"{visit}/site", data={"csrf": csrf(client), **form})


def test_an_entry_is_kept_once_and_says_so(engineer, site, visit):
    for _ in range(2):
        assert write(engineer, visit, "outcome", "fixed", 2).json()["kept"] == "entry-00002"
    assert [entry.field for entry in job_of(site, visit).entries] == ["unsafe-fuel", "outcome"]


@pytest.mark.parametrize(
    ("field", "text"),
    [("goblin", "x"), ("answer:", "x"), ("answer:a", "x"), ("danger", "maybe"), ("reading:!", "x"), ("cause", "a\0b"),
     ("answer:" + "a" * 150 + "#b" + "c" * 20, "x")],
)  # fmt: skip
def test_what_no_page_of_ours_would_send_is_not_kept(engineer, site, visit, field, text):
    assert write(engineer, visit, field, text).status_code == 422
    assert len(job_of(site, visit).entries) == 1


def test_a_job_is_closed_with_all_that_it_was_learnt_from(engineer, site, visit):
    news = write_all(engineer, visit, {**CHECKED, **PLAIN, "close": "now"})
    assert news[-1]["closed"] == visit
    closed = job_of(site, visit).closed
    assert closed
    assert (closed.cause, closed.by, closed.minutes) == ("Electrode, lead or spark unit", "Robin", 45)
    tally = site.store.jobs.tally("ignition-failure")
    cause = closed.cause
    given = {step: answer for (each, step, answer) in tally.answers if each == cause}
    assert given[Target("ignition-failure", "does-a-gas-ring-light")] == "Yes, with a steady blue flame"
    assert given[Target("ignition-failure", "see-how-far-the-sequence-gets")] == "Fan runs, no spark"
    assert not [step for step in given if step.article == "danger"]


def test_the_causes_that_were_predicted_are_those_before_anybody_went(engineer, site, visit):
    write_all(engineer, visit, {**CHECKED, **PLAIN, "close": "now"})
    closed = job_of(site, visit).closed
    assert closed
    assert closed.predicted == ("Electrode, lead or spark unit", "Condensate frozen or blocked")


def test_what_is_found_moves_the_likeliest_cause_to_the_front(engineer, visit):
    before = write(engineer, visit, "danger", "none", 2).json()["causes"]
    news = write_all(engineer, visit, CHECKED)[-1]["causes"]
    assert before[0][0] == "electrode-lead-or-spark-unit"
    assert news[0][0] == "fan-air-or-flue-not-proved"
    assert news[-2][1] == "No fault, advice given"


def test_closing_says_at_once_all_that_is_missing_and_leaves_the_job_open(engineer, site, visit):
    news = write_all(engineer, visit, {"outcome": "fixed", "close": "now"})[-1]
    assert [field for field, _, _ in news["lacking"]] == [
        "arrived",
        "cause",
        "unsafe",
        "phone",
        "shown",
        "card",
        "charge",
        "left",
    ]
    assert news["closed"] == ""
    assert job_of(site, visit).closed is None
    assert "Still missing" in engineer.get(f"{visit}/site").text


def test_what_was_missing_can_be_added_and_the_job_closed_then(engineer, site, visit):
    write_all(engineer, visit, {"close": "now"})
    write_all(engineer, visit, {**PLAIN, "close": "again"}, 20)
    assert job_of(site, visit).closed


def test_checks_that_ended_unsafe_are_not_closed_as_safe(engineer, site, visit):
    checks = {"danger": "none", FIRST: "Arrival checks found something unsafe"}
    news = write_all(engineer, visit, {**checks, **PLAIN, "close": "now"})[-1]
    assert [field for field, _, _ in news["lacking"]] == ["unsafe"]
    cause = {"cause": PLAIN["cause"]}
    news = write_all(engineer, visit, {**UNSAFE, **cause, "close": "again"}, 30)[-1]
    assert news["closed"]
    closed = job_of(site, visit).closed
    assert closed
    assert (closed.unsafe, f"{closed.report_by}") == ("immediately-dangerous", "2026-12-04")
    assert "4 December 2026" in engineer.get(visit).text


def test_a_closing_that_was_kept_before_a_process_died_closes_when_it_is_sent_again(engineer, site, visit):
    write_all(engineer, visit, PLAIN)
    job = job_of(site, visit)
    site.store.jobs.save(job.id, Entry("entry-00050", 50, "close", "now", "Robin", job.begun))
    assert job_of(site, visit).closed is None
    assert write(engineer, visit, "close", "now", 50).json()["closed"] == visit


def test_what_arrives_late_is_kept_and_said_to_be_late(engineer, site, visit):
    write_all(engineer, visit, {**PLAIN, "close": "now"})
    assert write(engineer, visit, "remark", "loft is boarded", 90).json()["late"]
    assert job_of(site, visit).texts["remark"] == "loft is boarded"


def test_a_reading_is_kept_with_its_unit_and_place(engineer, site, visit):
    assert post(engineer, visit, figure="1,2", unit="bar", where="gauge, cold").status_code == 303
    assert "1.2 bar gauge, cold" in job_of(site, visit).texts.values()
    assert "1.2 bar gauge, cold" in engineer.get(f"{visit}/site").text
    refused = post(engineer, visit, figure="warm", unit="bar", where="gauge")
    assert refused.status_code == 422
    assert "Expected a figure" in refused.text


def test_without_a_script_the_checks_are_walked_by_their_buttons(engineer, site, visit):
    for form in CHECKED.items():
        assert post(engineer, visit, **dict([form])).headers["location"] == f"{visit}/site#checks"
    assert job_of(site, visit).texts[SECOND] == "Fan runs, no spark"
    assert 'data-place="ignition-failure#look-at-the-spark"' in engineer.get(f"{visit}/site").text
    post(engineer, visit, **{SECOND: ""})
    assert job_of(site, visit).texts[SECOND] == ""


def test_without_a_script_arriving_and_leaving_take_the_firms_clock(engineer, site, visit):
    post(engineer, visit, now="arrived")
    form = {field: text for field, text in PLAIN.items() if field not in ("arrived", "left", "shown")}
    done = post(engineer, visit, close="yes", shown="", **{"shown.off": "off"}, **form)
    assert done.headers["location"] == visit
    assert (job_of(site, visit).texts["arrived"], job_of(site, visit).texts["left"]) == ("12:00", "12:00")


def test_a_form_shown_before_undoes_nothing_that_was_written_since(engineer, site, visit):
    clock = str(job_of(site, visit).clock)
    write(engineer, visit, "outcome", "waiting", 5)
    post(engineer, visit, clock=clock, outcome="", phone="no")
    assert job_of(site, visit).texts["outcome"] == "waiting"
    assert job_of(site, visit).texts["phone"] == "no"


def test_a_form_from_elsewhere_is_refused(engineer, site, visit):
    assert engineer.post(f"{visit}/entries", data={"csrf": "x", "id": "entry-00009"}).status_code == 403
    assert engineer.post(f"{visit}/site", data={"csrf": "x", "outcome": "fixed"}).status_code == 403
    assert len(job_of(site, visit).entries) == 1
