import re
from datetime import UTC, date
from html import unescape

from kb.appointment import Appointment, Window, said
from kb.desk.events import Did, Event
from kb.figures.finished import job_row
from kb.register import Appliance, Record
from kb.visit.job import Job
from tests.booking import WORDS, book
from tests.kb.visit.building import NOON
from tests.server.conftest import SEALED
from tests.server.engineer.conftest import csrf
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
    assert re.search(r"<b>\d+%</b> Electrode, lead or spark unit", text)
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


def agreed(site, call: str, day: int, engineer: str, hour: int = 8) -> None:
    window = Window(date(2026, 11, day), hour * 60, (hour + 4) * 60)
    said_so = said(Appointment(window, engineer))
    site.store.calls.add(call, Event("agreed", NOON, "Wren", Did.BOOKED, said_so))


def groups(engineer) -> dict[str, list[str]]:
    """Which visits stand under which heading, by the day and hour they were agreed for."""
    text = engineer.get("/engineer/visits").text.split("A visit without a call")[0]
    parts = re.split(r"<h2>(.*?)</h2>", text)[1:]
    times = r"(\w+day \d+ \w+, [\d:]+) to|(No day agreed)"
    return {
        unescape(title): [a or b for a, b in re.findall(times, body)]
        for title, body in zip(parts[::2], parts[1::2], strict=True)
    }


def test_my_visits_of_today_come_first_then_the_free_ones_then_others(engineer, site):
    for number, (day, who, hour) in enumerate(
        [(25, "Robin", 14), (25, "Robin", 12), (27, "Robin", 8), (26, "", 8), (26, "Sam", 8)]
    ):
        booked(site, id=f"call-{number}")
        agreed(site, f"call-{number}", day, who, hour)
    booked(site, id="call-9")
    found = groups(engineer)
    assert found["Mine today"] == ["Wednesday 25 November, 12:00", "Wednesday 25 November, 14:00"]
    assert found["Mine on other days"] == ["Friday 27 November, 8:00"]
    assert found["For whoever is free"] == ["No day agreed", "Thursday 26 November, 8:00"]
    assert found["Others'"] == ["Thursday 26 November, 8:00"]


def test_what_is_overdue_says_so_in_words(engineer, site):
    booked(site)
    agreed(site, "call-1", 25, "Robin", 6)
    assert "<b>Overdue: the agreed time has passed.</b>" in engineer.get("/engineer/visits").text


def test_a_colleagues_visit_is_taken_over(engineer, site):
    booked(site)
    site.store.jobs.begin(Job("theirs", "ignition-failure", NOON, "Sam", SEALED.key, "call-1"))
    assert "Take over: " in engineer.get("/engineer/visits").text
    answer = engineer.post("/engineer/visits", data={"csrf": csrf(engineer), "job": "theirs"})
    assert answer.headers["location"] == "/engineer/visits/theirs"
    assert site.store.jobs.job("theirs").by == "Robin"


def test_a_visit_under_warranty_says_so_without_a_tap(engineer, site):
    appliance = Appliance("Marlpit C 28", "marlpit-c", warranty_ends=date(2026, 11, 25))
    record = Record(SEALED.key, (appliance,), SEALED.known)
    assert site.store.register.put(record, "office", site.store.register.things(SEALED.key)) == ()
    booked(site)
    assert job_of(site, taken(engineer)).texts["charge"] == "warranty"


WAITS = {
    **PLAIN,
    "outcome": "waiting",
    "part-needed": "ignition lead",
    "fetch-who": "office",
    "fetch-by": "2026-11-28",
    "return-when": "morning",
    "return-day": "2026-12-01",
    "return-who": "me",
    "not-first": "part",
    "remark": "The case screws are stiff",
    "reading:12345678": "1.2 bar gauge, cold",
}
FOUND = "answer:ignition-failure#see-how-far-the-sequence-gets"


def test_a_job_that_waits_leaves_a_second_visit_in_which_nothing_is_written_twice(engineer, site):
    booked(site)
    first = taken(engineer)
    write_all(engineer, first, {"danger": "none", FOUND: "Fan runs, no spark", **WAITS, "close": "now"})
    text = engineer.get(first).text
    second = re.search(r'href="(/engineer/visits/[\w-]+)">The second visit', text)[1]
    brief = engineer.get(second).text
    for words in ("ignition lead. The office orders it, there by 28 November 2026", "1.2 bar gauge, cold",
                  "The case screws are stiff", "Tuesday 1 December, 8:00 to 12:00, Robin", WORDS, "dog in the yard",
                  "Visit by Robin: Electrode, lead or spark unit, a part was to follow."):  # fmt: skip
        assert words in brief
    texts = job_of(site, second).texts
    assert (texts[FOUND], texts["parts-taken"]) == ("Fan runs, no spark", "ignition-lead")
    assert "Second visit, with: ignition lead" in engineer.get("/engineer/visits").text


def test_a_second_visit_counts_as_none_that_was_fixed_first_time(engineer, site):
    booked(site)
    first = taken(engineer)
    write_all(engineer, first, {**WAITS, "close": "now"})
    (second,) = [each.job for each in site.store.appointments.to_visit()]
    write_all(engineer, f"/engineer/visits/{second}", {**PLAIN, "close": "now"})
    rows = [job_row(site.library, site.store.jobs.job(id), UTC) for id in (first.rsplit("/", 1)[1], second)]
    assert [(row.fixed, row.returns, bool(row.expected)) for row in rows] == [(False, False, True), (True, True, False)]


def test_what_changed_on_site_reaches_the_home_when_the_job_closes(engineer, site):
    booked(site)
    visit = taken(engineer)
    changes = {"card": "changed", "card-words": "New loop with levers", "loop": "built-in", "mark-aim": "1.4"}
    write_all(engineer, visit, {**PLAIN, **changes})
    assert site.store.home(SEALED.key) == SEALED
    write_all(engineer, visit, {"close": "now"}, 90)
    after = site.store.home(SEALED.key)
    assert after.known.facts["filling-loop"] == "built-in"
    assert (after.known.marks.aim, after.known.marks.low) == (1.4, 0.9)
    assert "New loop with levers" in engineer.get(visit).text


def test_a_form_without_a_script_keeps_only_what_is_otherwise(engineer, site):
    booked(site)
    visit = taken(engineer)
    fields = dict(re.findall(r'name="([\w-]+)" value="([^"]*)"', engineer.get(f"{visit}/site").text))
    assert fields["mark-aim"] == "1.3"
    sent = {**fields, **PLAIN, "mark-aim": "1.3", "mark-low": "0.8", "card": "changed", "card-words": "new gauge"}
    sent |= {"shown.off": "on", "csrf": csrf(engineer)}
    engineer.post(f"{visit}/site", data={name: text for name, text in sent.items() if name not in ("danger", "figure")})
    written = {entry.field for entry in job_of(site, visit).entries}
    assert "mark-low" in written
    assert not {"mark-aim", "mark-high", "stop-tap-place"} & written
