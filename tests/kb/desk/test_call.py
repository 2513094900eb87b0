from kb.desk.call import read_call
from kb.desk.events import Did
from tests.kb.desk.calling import BEGAN, Told


def test_a_call_that_nobody_said_anything_in_is_empty() -> None:
    call = read_call([])
    assert (call.began, call.branch, call.key) == (None, None, None)


def test_what_is_said_later_takes_the_place_of_what_was_said_before() -> None:
    told = Told().did(Did.CALLER, phone="1", name="A").did(Did.CALLER, phone="2").did(Did.HOME, key="K").did(Did.HOME)
    call = read_call(told.events)
    assert (call.began, call.caller, call.key) == (BEGAN, {"phone": "2", "name": "A"}, "")


def test_only_what_has_a_place_in_a_call_is_taken() -> None:
    call = read_call(Told().did(Did.CALLER, diagnosis="x").did(Did.TOLD, diagnosis="x", heating="no").events)
    assert (call.caller, call.told) == ({}, {"heating": "no"})


def test_an_answer_in_a_fault_that_was_never_begun_changes_nothing() -> None:
    for branch in ("0", "-1", "x", ""):
        told = Told().did(Did.ANSWERED, branch=branch, place="0", piece="abc")
        assert read_call(told.events).branches == ()


def test_an_answer_beyond_the_last_is_not_taken() -> None:
    told = Told().did(Did.BEGAN, article="a").did(Did.ANSWERED, branch="0", place="3", piece="abc")
    assert read_call(told.events).branch.pieces == ()


def test_a_dropped_line_is_taken_up_again_when_they_ring_back() -> None:
    told = Told().did(Did.DROPPED)
    assert read_call(told.events).dropped
    assert not read_call(told.did(Did.CALLER, phone="1").events).dropped


def test_the_last_turn_says_which_fault_is_looked_at() -> None:
    told = Told().did(Did.BEGAN, article="a").did(Did.BEGAN, article="b")
    assert read_call(told.events).branch.article == "b"
    assert read_call(told.did(Did.TURNED, branch="0").events).branch.article == "a"


def test_what_came_with_a_changed_reference_is_unread_until_it_is_read_back() -> None:
    told = Told().did(Did.BEGAN, article="a", trail="abc-def", how="reference", slip="changed")
    branch = read_call(told.events).branch
    assert (branch.unread, branch.came, branch.pieces) == (True, 2, ("abc", "def"))
    assert not read_call(told.did(Did.READ_BACK, branch="0").events).branch.unread
