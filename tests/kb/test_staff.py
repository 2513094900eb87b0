import pytest

from kb.staff import Account, Role, weakness, wrong_name


def test_a_role_opens_its_own_room_alone() -> None:
    account = Account("Wren", frozenset({Role.DESK}))

    assert [role for role in Role if account.may(role)] == [Role.DESK]
    assert account.may(None)


@pytest.mark.parametrize("name", ["Wren", "Wren Ashby", "Ærin Ó'Dell-Żak"])
def test_a_persons_name_may_be_an_accounts(name: str) -> None:
    assert wrong_name(name) is None


@pytest.mark.parametrize("name", ["", "W", " Wren", "Wren  Ashby", "Wren\nAshby", "W" * 61])
def test_a_name_that_nobody_could_type_again_may_not(name: str) -> None:
    assert "Expected a name" in (wrong_name(name) or "")


@pytest.mark.parametrize("password", ["kettle lamp orbit moss", "qd7-mmk-29x-hlp", "ünmöglich zu raten"])
def test_a_long_password_of_any_kind_of_characters_may_be_used(password: str) -> None:
    assert weakness(password, "Wren Ashby") is None


@pytest.mark.parametrize(
    ("password", "why"),
    [
        ("short", "characters"),
        ("x" * 201, "characters"),
        ("aaaaaaaaaaaabbb", "hard to guess"),
        ("Wren is my name", "own name"),
        ("the ASHBY family", "own name"),
    ],
)
def test_a_password_that_is_tried_first_may_not(password: str, why: str) -> None:
    assert why in (weakness(password, "Wren Ashby") or "")


def test_a_common_password_may_not() -> None:
    assert "hard to guess" in (weakness("Correct Horse 1", "Wren", {"correct horse 1"}) or "")
