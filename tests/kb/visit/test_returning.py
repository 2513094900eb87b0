from dataclasses import replace
from datetime import date

from kb.appointment import Window
from kb.hours import Opening
from kb.visit.returning import agreed, comes_back, returning
from tests.kb.visit.building import NOON, PLAIN, job, say

WAITS = {
    **PLAIN,
    "outcome": "waiting",
    "part-needed": "Pump",
    "fetch-who": "office",
    "fetch-by": "2026-11-28",
    "not-first": "part",
    "return-when": "morning",
    "return-day": "2026-12-01",
    "return-who": "me",
}
CHECKS = {
    "danger": "none",
    "answer:on-arrival#smell": "Clear",
    "answer:cold#listen-to-the-pump": "It is stuck",
    "reading:12345678": "1.2 bar gauge, cold",
}
HOURS = {"tue": (Opening(480, 1050),)}


def second(**changes: str):
    texts = {**WAITS, **CHECKS, **{name.replace("_", "-"): text for name, text in changes.items()}}
    first = replace(job(texts), call="call-1", key="a key")
    return returning(first, say(texts), "job-2", "Robin", NOON)


def test_nobody_comes_back_to_a_job_that_is_done() -> None:
    assert returning(job(PLAIN), say(PLAIN), "job-2", "Robin", NOON) is None
    assert not comes_back(say({**WAITS, "return-when": "none"}))


def test_a_second_visit_is_to_the_same_home_about_the_same_fault() -> None:
    found = second()
    assert (found.id, found.article, found.key, found.range, found.by) == ("job-2", "cold", "a key", "any", "Robin")
    assert found.closed is None
    assert found.call == ""
    assert found.told_in == "call-1"


def test_it_knows_the_part_who_gets_it_and_by_when() -> None:
    why = second().returns
    assert (why.job, why.part, why.who, why.ready) == ("job-1", "Pump", "office", date(2026, 11, 28))


def test_nothing_that_was_found_is_written_twice() -> None:
    texts = second().texts
    assert texts["answer:cold#listen-to-the-pump"] == "It is stuck"
    assert (texts["cause"], texts["charge"], texts["parts-taken"]) == ("the-pump", "chargeable", "pump")


def test_what_keeps_people_safe_is_asked_anew() -> None:
    asked_anew = {"danger", "answer:on-arrival#smell", "unsafe", "outcome", "arrived", "left", "card", "phone"}
    assert not asked_anew & second().texts.keys()
    assert not any(field.startswith("reading:") for field in second().texts)


def test_whoever_is_free_has_it_until_somebody_takes_it() -> None:
    assert second(return_who="any").by == ""


def test_what_was_agreed_on_site_is_a_half_day_within_the_opening_hours() -> None:
    found = agreed(say(WAITS), HOURS, "Robin", NOON)
    assert (found.window, found.engineer) == (Window(date(2026, 12, 1), 480, 720), "Robin")
    assert agreed(say({**WAITS, "return-when": "afternoon"}), HOURS, "Robin", NOON).window.closes == 1050
    assert agreed(say({**WAITS, "return-when": "desk"}), HOURS, "Robin", NOON) is None
