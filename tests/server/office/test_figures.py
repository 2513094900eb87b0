from dataclasses import fields, replace
from datetime import timedelta

import pytest
from starlette.testclient import TestClient

from kb.desk.danger import questions
from kb.desk.events import Did, Event
from kb.figures.rows import CallRow, Stop
from kb.figures.weeks import Week
from kb.staff import Account, Role
from kb.visit.job import Closed, Job
from server.office.counting import catch_up
from server.office.figure_pages import FiguresPage
from server.office.figures import HERE, MOST_ROWS, step_words
from server.site import Site
from server.staff.passwords import hashed
from tests.server.conftest import SEALED, WEDNESDAY_NOON
from tests.server.web.test_pages import used

PASSWORD = "kettle lamp orbit moss"
STOPPED = "low-pressure.md#is-any-water-dripping"
NAMES = ("calls", "by-phone", "danger", "first-time", "parts", "steps", "causes", "homes", "overdue")


@pytest.fixture(scope="module")
def kept() -> str:
    return hashed(PASSWORD)


@pytest.fixture
def office(site: Site, client: TestClient, kept: str) -> TestClient:
    site.store.staff.add(Account("Ola", frozenset({Role.OFFICE})), kept, WEDNESDAY_NOON)
    client.post("/staff/sign-in", data={"name": "Ola", "password": PASSWORD})
    return client


@pytest.fixture
def busy(site: Site) -> Site:
    rows = [a_call(number) for number in range(40)]
    site.store.figures.add_calls(rows)
    return site


def a_call(number: int) -> CallRow:
    began = WEDNESDAY_NOON - timedelta(days=10 * number + 3)
    stops = (Stop(STOPPED, alone=True),)
    return CallRow(f"c{number}", began, began, Week.of(began.date()), "low-pressure", "booked", 1, 9.0, stops=stops)


def close_a_call(site: Site, id: str) -> None:
    site.store.calls.begin(id, "Wren", WEDNESDAY_NOON)
    asked = [
        Event(f"{id}{n}", WEDNESDAY_NOON, "Wren", Did.ASKED, {"step": step.anchor, "answer": "no"})
        for n, step in enumerate(questions(site.library))
    ]
    begun = {"article": "condensate", "trail": "", "how": "desk"}
    site.store.calls.add(
        id,
        *asked,
        Event(f"{id}-home", WEDNESDAY_NOON, "Wren", Did.HOME, {"key": SEALED.key}),
        Event(f"{id}-began", WEDNESDAY_NOON, "Wren", Did.BEGAN, begun),
        Event(f"{id}-closed", WEDNESDAY_NOON, "Wren", Did.CLOSED, {"how": "booked"}),
    )


def test_the_figures_are_the_offices_alone(site: Site, client: TestClient, kept: str) -> None:
    assert client.get(HERE).status_code == 303
    site.store.staff.add(Account("Wren", frozenset({Role.DESK, Role.ENGINEER})), kept, WEDNESDAY_NOON)
    client.post("/staff/sign-in", data={"name": "Wren", "password": PASSWORD})

    assert client.get(HERE).status_code == 403
    assert client.get(f"{HERE}/calls.csv").status_code == 403


def test_every_picture_is_there_in_its_order_with_its_table_and_its_file(busy: Site, office: TestClient) -> None:
    page = office.get(HERE).text

    places = [page.index(f'<section id="{name}"') for name in NAMES]
    assert places == sorted(places)
    assert page.count("<table>") == page.count(".csv?period=12-weeks") == page.count("<svg xmlns")
    assert step_words(busy.library, STOPPED) in page.replace("&#39;", "'")


def test_the_template_uses_what_its_page_declares() -> None:
    assert used(FiguresPage.template) == {field.name for field in fields(FiguresPage)}


def test_the_page_asks_for_no_style_or_script_of_its_own(busy: Site, office: TestClient) -> None:
    page = office.get(HERE).text

    assert " style=" not in page
    assert "<style" not in page
    assert "<script" not in page


@pytest.mark.parametrize(("period", "calls"), [("12-weeks", 8), ("year", 36), ("all", 40)])
def test_a_period_is_chosen_for_the_page_and_its_files(busy: Site, office: TestClient, period: str, calls: int) -> None:
    page = office.get(f"{HERE}?period={period}")
    file = office.get(f"{HERE}/calls.csv?period={period}")

    assert f"{calls} calls in" in page.text
    rows = [line.split(",") for line in file.text.splitlines()]
    assert sum(int(row[3]) for row in rows[1:]) == calls
    assert file.headers["content-type"] == "text/csv; charset=utf-8"
    assert file.headers["content-disposition"] == f'attachment; filename="calls-{period}.csv"'


@pytest.mark.parametrize("address", [f"{HERE}?period=ever", f"{HERE}/nothing.csv", f"{HERE}/calls.csv?period="])
def test_what_there_is_not_is_not_found(office: TestClient, address: str) -> None:
    assert office.get(address).status_code == 404


def test_before_anything_was_counted_the_page_says_so(office: TestClient) -> None:
    page = office.get(HERE).text

    assert page.count("There is nothing to count yet.") == len(NAMES)
    assert "<svg xmlns" not in page


def test_few_cases_are_told_to_be_few(site: Site, office: TestClient) -> None:
    site.store.figures.add_calls([a_call(0)])

    assert "only 1 call. Fewer than 30 are too few" in office.get(HERE).text


def test_a_call_that_was_closed_is_counted_with_the_next_page(site: Site, office: TestClient) -> None:
    close_a_call(site, "one")
    page = office.get(HERE).text

    assert "1 call in" in page
    assert "Condensate" in page
    assert catch_up(site) == 0


def test_a_job_that_was_closed_is_counted_with_the_next_page(site: Site, office: TestClient) -> None:
    site.store.jobs.begin(Job("one", "condensate", WEDNESDAY_NOON, "Ash", key=SEALED.key))
    site.store.jobs.close(
        "one", Closed(WEDNESDAY_NOON, "Ash", "Ice in the outside run", "fixed", "no", taken=("trap",)), {}
    )

    assert office.get(f"{HERE}/parts.csv").text.splitlines()[1] == "trap,1,0,0.0000,0"


def test_more_than_one_page_can_count_says_that_the_rest_waits(site: Site) -> None:
    for number in range(3):
        close_a_call(site, f"call-{number}")

    assert [catch_up(site, 2), catch_up(site, 2), catch_up(site, 2)] == [2, 1, 0]


def test_a_long_table_goes_on_in_its_file(site: Site, office: TestClient) -> None:
    calls = [replace(a_call(0), id=f"c{n}", stops=(Stop(f"gone.md#step-{n}", True),)) for n in range(MOST_ROWS + 7)]
    site.store.figures.add_calls(calls)

    page = office.get(HERE).text
    assert "7 more rows are in the CSV file." in page
    assert page.count("Step ") >= MOST_ROWS
    assert len(office.get(f"{HERE}/steps.csv").text.splitlines()) == 1 + MOST_ROWS + 7


def test_a_step_that_is_gone_goes_by_its_anchor(site: Site) -> None:
    assert step_words(site.library, "condensate.md#what-was-here-once").startswith("What was here once (")
    assert step_words(site.library, "gone.md#listen-to-it") == "Listen to it"
