from datetime import timedelta

import pyotp
import pytest

from kb.staff import Account, Role
from server.site import Site
from server.staff.passwords import hashed, is_right
from server.staff.signing_in import MOST_FOR_BOTH, MOST_FOR_ONE, WINDOW, Entry, Refusal, session_id, sign_in
from server.store.staff import Staff
from tests.server.conftest import WEDNESDAY_NOON

PASSWORD = "kettle lamp orbit moss"
SECRET = "GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ"


@pytest.fixture(scope="module")
def kept() -> str:
    return hashed(PASSWORD)


@pytest.fixture
def staff(site: Site, kept: str) -> Staff:
    site.store.staff.add(Account("Wren", frozenset({Role.DESK})), kept, WEDNESDAY_NOON)
    return site.store.staff


def tried(
    staff: Staff, password: str = "wrong", address: str = "a", minutes: float = 0, code: str = "", name: str = "Wren"
):
    return sign_in(staff, name, password, code, address, WEDNESDAY_NOON + timedelta(minutes=minutes))


def test_the_right_password_begins_a_session(staff: Staff) -> None:
    entry = tried(staff, PASSWORD)

    assert isinstance(entry, Entry)
    account = staff.session(session_id(entry.token), WEDNESDAY_NOON)
    assert account is not None
    assert account.name == "Wren"


@pytest.mark.parametrize(
    ("name", "password"), [("Wren", "wrong"), ("Robin", PASSWORD), ("", ""), ("Wren", PASSWORD + "x")]
)
def test_a_wrong_name_and_a_wrong_password_are_told_alike(staff: Staff, name: str, password: str) -> None:
    assert tried(staff, password, name=name) is Refusal.WRONG


def test_a_password_is_kept_as_argon2id_and_nobody_has_none(kept: str) -> None:
    # RFC 9106 recommends the variant id.
    assert kept.startswith("$argon2id$")
    assert is_right(PASSWORD, kept)
    assert not is_right("the password of nobody", None)


def test_a_pair_of_name_and_address_waits_after_some_failures(staff: Staff) -> None:
    for _ in range(MOST_FOR_BOTH):
        assert tried(staff) is Refusal.WRONG

    assert tried(staff, PASSWORD) is Refusal.WAIT
    assert isinstance(tried(staff, PASSWORD, address="b"), Entry)
    assert isinstance(tried(staff, PASSWORD, minutes=WINDOW.total_seconds() / 60 + 1), Entry)


def test_a_flood_against_one_name_leaves_its_usual_place_open(staff: Staff) -> None:
    tried(staff, PASSWORD, address="the office")
    for number in range(MOST_FOR_ONE):
        staff.note_try("Wren", f"far away {number}", WEDNESDAY_NOON, well=False)

    assert tried(staff, PASSWORD, address="another far away") is Refusal.WAIT
    assert isinstance(tried(staff, PASSWORD, address="the office"), Entry)


def test_a_flood_from_the_firms_own_address_leaves_its_people_in(staff: Staff) -> None:
    tried(staff, PASSWORD, address="the office")
    for number in range(MOST_FOR_ONE):
        staff.note_try(f"guess {number}", "the office", WEDNESDAY_NOON, well=False)

    assert tried(staff, "anything", address="the office", name="guess") is Refusal.WAIT
    assert isinstance(tried(staff, PASSWORD, address="the office"), Entry)


def code_at(minutes: float) -> str:
    return pyotp.TOTP(SECRET).at(WEDNESDAY_NOON + timedelta(minutes=minutes))


@pytest.fixture
def with_code(staff: Staff) -> Staff:
    staff.set_code_secret("Wren", SECRET)
    return staff


def test_an_account_with_a_code_asks_for_it(with_code: Staff) -> None:
    assert tried(with_code, PASSWORD) is Refusal.CODE_WANTED


def test_without_the_password_nobody_learns_that_there_is_a_code(with_code: Staff) -> None:
    assert tried(with_code, "wrong") is Refusal.WRONG


@pytest.mark.parametrize("minutes", [0, -0.5, 0.5])
def test_the_code_of_this_half_minute_or_its_neighbours_is_taken(with_code: Staff, minutes: float) -> None:
    assert isinstance(tried(with_code, PASSWORD, code=code_at(minutes)), Entry)


@pytest.mark.parametrize("code", [code_at(-2), code_at(2), "000000", "nonsense"])
def test_any_other_code_is_not(with_code: Staff, code: str) -> None:
    assert tried(with_code, PASSWORD, code=code) is Refusal.WRONG


def test_a_code_that_was_used_is_not_taken_again(with_code: Staff) -> None:
    tried(with_code, PASSWORD, code=code_at(0))

    assert tried(with_code, PASSWORD, code=code_at(0)) is Refusal.WRONG


def test_codes_are_those_of_the_standard() -> None:
    # RFC 6238, appendix B: SHA-1, time 59 s, its last six digits.
    assert pyotp.TOTP(SECRET).at(59) == "287082"
