import re
from datetime import timedelta

from kb.visit.job import Closed, Job
from server.site import Site
from tests.server.conftest import SEALED, WEDNESDAY_NOON
from tests.server.desk.conftest import Clock, Handler, faulty


def ended(desk: Handler) -> Handler:
    return faulty(desk).answers("No, there is a small tank in the loft").answers("Empty, or nearly empty")


def test_an_end_shows_how_soon_and_why(desk: Handler) -> None:
    ended(desk)
    assert "Today: within 24 hours at most" in desk.page.words
    assert "Nobody knows yet who is at home" in desk.page.words


def test_the_people_and_the_cold_make_it_sooner_and_the_reasons_stand_there(desk: Handler) -> None:
    ended(desk).does("told", heating="no").does("people", asked="yes", need_over_65="on", outdoor="-2", indoor="14")
    assert "Make safe: within two to four hours" in desk.page.words
    assert "No heat in frost, with somebody in need" in desk.page.words


def test_a_temperature_that_is_none_is_told(desk: Handler) -> None:
    assert ended(desk).does("people", indoor="cold").status == 422
    assert "“cold” is no temperature" in desk.page.words


def test_later_needs_a_reason_and_never_goes_below_the_floor(desk: Handler) -> None:
    ended(desk).does("people", asked="yes").does("told", heating="yes", hot_water="yes").see("pace")
    assert desk.does("choose-pace", to="routine", why="").status == 422
    assert desk.does("choose-pace", to="routine", why="they are away until Monday").status == 200
    assert "Routine: a visit that suits both" in desk.page.words
    desk.does("told", heating="no").see("pace")
    assert "Today: within 24 hours at most" in desk.page.words
    assert desk.does("choose-pace", to="routine", why="they are away").status == 422


def test_what_the_register_knows_of_needs_counts_at_once(desk: Handler, registered) -> None:
    desk.begin().clear().does("home", key=SEALED.key).does("fault", article="low-pressure").see("pace")
    assert "Somebody at home needs more than others do." in desk.page.words


def test_a_booking_wants_a_day_first_and_the_caller_hears_it(desk: Handler) -> None:
    ended(desk).see("finish")
    assert desk.does("close", how="booked").status == 422
    assert "Agree first when somebody comes." in desk.page.words
    desk.see("book").does("book", window=window(desk, 1), engineer="Robin")
    assert "Robin comes today, on Wednesday 25 November in the afternoon, between 12:00 and 17:30." in desk.page.words
    desk.does("promise", what="we ring before", by="17:00").does("close", how="booked")
    assert "Agreed Wednesday 25 November, 12:00 to 17:30: Robin" in desk.page.words
    assert "we ring before (by 17:00)" in desk.page.words
    assert "Closed Booked" in desk.page.words
    assert "No call is open" in desk.get("/desk").page.words


def window(desk: Handler, key: int) -> str:
    """What the button on a key sends."""
    return re.findall(r'name="window" value="([^"]+)" data-key="(\d)"', desk.text)[key - 1][0]


def test_what_is_offered_is_never_later_than_the_pace_allows(desk: Handler) -> None:
    ended(desk).see("book")
    assert "The pace wants somebody there by Thursday 26 November, 12:00." in desk.page.words
    offered = re.findall(r'name="window" value="([^"]+)"', desk.text)
    assert offered == ["2026-11-25 720 1050", "2026-11-26 480 720"]


LATER = {"day": "2026-11-30", "opens": "8:00", "closes": "12:00", "engineer": ""}


def test_later_than_the_pace_wants_a_reason_which_stands_in_the_note(desk: Handler) -> None:
    ended(desk).see("book")
    assert desk.does("book", **LATER, why="").status == 422
    assert "Choose a sooner one, or write why it may be later." in desk.page.words
    desk.does("book", **LATER, why="they are away until Monday").does("close", how="booked")
    assert "Later than Thursday 26 November, 12:00 they are away until Monday" in desk.page.words


def test_a_pace_that_rises_wants_the_visit_agreed_anew(desk: Handler) -> None:
    ended(desk).see("book").does("book", **LATER, why="they are away")
    desk.does("told", heating="no").does("people", asked="yes", need_over_65="on", outdoor="-2", indoor="14")
    assert "agree it anew, or write why it may be later" in desk.see("finish").page.words
    assert desk.does("close", how="booked").status == 422
    desk.see("book").does("book", window=window(desk, 1), engineer="")
    assert desk.does("close", how="booked").status == 200


def test_nobody_is_sent_who_is_no_engineer(desk: Handler) -> None:
    ended(desk).see("book")
    assert desk.does("book", window=window(desk, 1), engineer="Wren").status == 422
    assert desk.does("book", window="whenever", engineer="").status == 422


def test_how_many_visits_there_are_then_already_is_told(desk: Handler) -> None:
    ended(desk).see("book").does("book", window=window(desk, 1), engineer="Robin").does("close", how="booked")
    ended(desk).see("book")
    assert "Wednesday 25 November, 12:00 to 17:30 1 visit then already" in desk.page.words


def test_the_brief_of_the_desk_tells_of_earlier_visits_and_their_causes(desk: Handler, site: Site, registered) -> None:
    began = WEDNESDAY_NOON - timedelta(days=100)
    site.store.jobs.begin(Job("one", "noise", began, "Robin", SEALED.key))
    site.store.jobs.close("one", Closed(began, "Robin", "Scale", "fixed", "no"), {})
    desk.begin().clear().does("home", key=SEALED.key).does("fault", article="low-pressure").see("brief")
    assert "17 August 2026: Visit by Robin: Scale, fixed." in desk.page.words


def test_danger_is_not_solved_by_phone(desk: Handler) -> None:
    desk.begin().says("yes").see("finish")
    assert desk.does("close", how="solved").status == 422
    assert desk.does("close", how="emergency").status == 200


def test_where_the_emergency_service_goes_first_our_visit_is_agreed_for_afterwards(desk: Handler, site: Site) -> None:
    desk.begin().says("no").says("no").says("yes").does("home", key=SEALED.key).see("book")
    desk.does("book", window=window(desk, 1), engineer="Robin")
    assert "The emergency service goes first. Once it has left the home safe, Robin comes today" in desk.page.words
    assert "Booked" not in desk.page.words
    assert desk.does("close", how="booked").status == 422
    assert "The emergency service goes first: close the call as handed to it." in desk.page.words
    desk.does("close", how="emergency")
    (visit,) = site.store.appointments.to_visit()
    assert (visit.call, visit.owner) == (desk.call, "Robin")
    assert "Go in only once it has left the home safe." in desk.see("brief").page.words


def test_an_emergency_without_an_agreed_visit_sends_nobody(desk: Handler, site: Site) -> None:
    desk.begin().says("no").says("yes").does("close", how="emergency")
    assert site.store.appointments.to_visit() == ()


def test_a_call_solved_by_phone_is_asked_about_after_two_days(desk: Handler, clock: Clock) -> None:
    ended(desk).see("finish").does("close", how="solved")
    assert "Ask whether it still works" not in desk.get("/desk").page.words
    clock.on(hours=48, seconds=1)
    desk.client.post("/staff/sign-in", data={"name": "Wren", "password": "kettle lamp orbit moss"})
    assert "Ask whether it still works" in desk.get("/desk").page.words
    address = re.search(r'action="(/desk/[\w-]+/follow)"', desk.text)[1]
    desk.post(address, works="no")
    assert "Ask whether it still works" not in desk.page.words


def test_a_repeat_within_four_weeks_is_noticed(desk: Handler, clock: Clock, registered) -> None:
    desk.begin().clear().does("home", key=SEALED.key)
    clock.on(hours=9)
    desk.begin().clear().does("home", key=SEALED.key).does("fault", article="low-pressure").see("pace")
    assert "They rang about this home on 25 November" in desk.page.words


def test_a_dropped_line_stays_in_the_list_with_its_number(desk: Handler) -> None:
    desk.begin().clear().does("caller", phone="01632 960222").does("drop")
    assert "Line dropped. Ring back on 01632 960222." in desk.page.words
    assert "tell the emergency service" not in desk.page.words


def test_a_line_that_dropped_in_danger_is_not_left_to_a_phone_nobody_answers(desk: Handler) -> None:
    desk.begin().says("no").says("yes").does("caller", phone="01632 960222").does("drop")
    assert "If nobody answers, tell the emergency service." in desk.page.words


def test_two_calls_at_once_stay_apart(desk: Handler) -> None:
    first = faulty(desk, "the first is cold").call
    second = desk.begin().call
    assert "question 1 of 8" in desk.page.words
    assert desk.get(f"/desk/{first}").page.heading == "Does your boiler have a pressure gauge?"
    assert {first, second} <= set(re.findall(r'href="/desk/([\w-]+)"', desk.get("/desk").text))


def test_a_call_is_handed_to_a_colleague_who_finds_it_where_it_was(desk: Handler, colleague: Handler) -> None:
    before = faulty(desk).page.heading
    desk.does("hand", to="Ash")
    assert "Ash" in desk.page.words
    assert colleague.get(f"/desk/{desk.call}").page.heading == before
    assert "holds this call" not in colleague.page.words


def test_only_somebody_of_the_desk_is_handed_a_call(desk: Handler) -> None:
    assert faulty(desk).does("hand", to="Robin").status == 422


def test_a_colleague_takes_a_call_over(desk: Handler, colleague: Handler) -> None:
    colleague.get(f"/desk/{faulty(desk).call}")
    assert "Wren holds this call" in colleague.page.words
    assert "holds this call" not in colleague.does("take").page.words
    assert "Ash holds this call" in desk.see().page.words


def test_the_note_is_one_page_with_everything(desk: Handler, registered) -> None:
    desk.begin().clear().does("caller", phone="01632 960111", access="dog").does("home", key=SEALED.key)
    desk.does("told", words="it is stone cold", code="double four", heating="no").does("fault", article="low-pressure")
    words = desk.see("note").page.words
    for each in ("01632 960111", "dog", "4 Any Street", "Robin Marsh", "“it is stone cold”", "“double four”", "S 7",
                 "No (12:00:00)", "Recorded by Wren", "is over 65"):  # fmt: skip
        assert each in words


def test_the_brief_has_causes_parts_and_the_engineers_checks(desk: Handler, registered) -> None:
    desk.begin().clear().does("home", key=SEALED.key).does("told", words="gauge low").does(
        "fault", article="low-pressure"
    )
    desk.answers("It is off and cool").reads("0.4").answers("Yes, air was let out")
    words = desk.see("brief").page.words
    for each in ("Air settling after bleeding", "no closed job of ours yet", "For it: Was air let out", "bleed key",
                 "1. Read the pressure cold", "4 Any Street", "under the kitchen sink"):  # fmt: skip
        assert each in words


def test_a_brief_waits_for_a_fault(desk: Handler) -> None:
    assert desk.begin().clear().see("brief").at.endswith("/who")


def test_nothing_of_a_caller_is_in_an_address(desk: Handler, registered, site: Site) -> None:
    desk.begin().clear().does("caller", phone="01632 960111").does("home", key=SEALED.key)
    assert "960111" not in desk.at
    assert SEALED.key not in desk.at
