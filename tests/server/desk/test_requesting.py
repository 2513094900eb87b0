"""A household that asked to be called is rung, and what it did goes along."""

import pytest

from kb.article import Audience, Pace
from kb.callback import Reach
from server.site import Site
from server.store.requests import Asked
from tests.server.conftest import SEALED, WEDNESDAY_NOON
from tests.server.desk.conftest import Handler


def asks(site: Site, sent: str = "one", tried: bool = True, pace: Pace = Pace.TODAY, name: str = "Ida Moor") -> None:
    start = site.library.articles["noise"].first(Audience.HOUSEHOLD)
    assert start is not None
    trail = f"none-{start.answers[0].token}"
    way = {"article": "noise", "trail": trail, "home": SEALED.key, "about": "The heating makes a noise"}
    asked = Asked(sent, name, "+447700900123", Reach.EVENING, pace, way if tried else None)
    site.store.requests.put(asked, [], "an address", WEDNESDAY_NOON)


def take(desk: Handler, number: int = 1) -> Handler:
    return desk.get("/desk").post(f"/desk/asked/{number}")


def test_the_list_says_who_waits_for_what_and_since_when(staffed: Site, desk: Handler) -> None:
    asks(staffed)

    said = desk.get("/desk").page.words
    assert "Ida Moor" in said
    assert "The heating makes a noise" in said
    assert "In the evening, after 5 · Waits since Wednesday 12:00" in said


def test_who_is_most_pressing_stands_first(staffed: Site, desk: Handler) -> None:
    asks(staffed, "one", pace=Pace.ROUTINE, name="Later")
    asks(staffed, "two", pace=Pace.TODAY, name="Sooner")

    said = desk.get("/desk").page.words
    assert said.index("Sooner") < said.index("Later")


def test_a_call_to_them_begins_with_danger_and_goes_on_where_they_stood(staffed: Site, desk: Handler) -> None:
    asks(staffed)
    take(desk)
    assert "hurt, faint" in desk.page.heading

    desk.clear()
    walked = staffed.library.articles["noise"].first(Audience.HOUSEHOLD)
    assert walked is not None
    assert walked.answers[0].text in desk.see().page.words
    assert "07700 900123" in desk.see("who").text.replace("+447700900123", "07700 900123")


def test_without_consent_only_the_number_goes_along(staffed: Site, desk: Handler) -> None:
    asks(staffed, tried=False)
    take(desk).clear()

    kept = staffed.store.calls.call("asked-1")
    assert kept is not None
    assert kept.home == ""
    assert "+447700900123" in desk.see("who").text


def test_who_is_taken_up_waits_no_longer_and_no_colleague_rings_too(
    staffed: Site, desk: Handler, colleague: Handler
) -> None:
    asks(staffed)
    colleague.get("/desk")
    take(desk)

    assert "Ida Moor" not in colleague.post("/desk/asked/1").page.words.split("Open")[0]
    assert [each.taken_by for each in staffed.store.requests.waiting("Wren")] == ["Wren"]


def test_taken_up_twice_it_is_one_call(staffed: Site, desk: Handler) -> None:
    asks(staffed)
    take(desk)
    take(desk)

    assert len(staffed.store.calls.open()) == 1


def test_a_call_that_is_closed_is_one_they_wait_for_no_more(staffed: Site, desk: Handler) -> None:
    asks(staffed)
    take(desk).clear()
    desk.does("close", how="no-answer")

    assert staffed.store.requests.waiting("Wren") == ()


@pytest.mark.parametrize("number", ["99", "nonsense"])
def test_a_request_that_is_not_there_is_told(desk: Handler, number: str) -> None:
    assert take(desk, number).status == 404  # type: ignore[arg-type]
