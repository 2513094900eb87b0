"""Who may sign in: added, changed and ended by the office, which gives its own password each time."""

import re

import pytest

from kb.staff import Role
from server.office.accounts import ROLES
from tests.server.office.conftest import PASSWORD

HERE = "/office/accounts"


def roles(office) -> dict[str, frozenset[Role]]:
    return {each.name: each.roles for each in office.site.store.staff.accounts()}


def add(office, name: str = "Robin Thorne", own: str = PASSWORD, **ticks: str) -> str:
    return office.post(HERE, name=name, own=own, **(ticks or {"role.engineer": "yes"})).text


def password_in(page: str) -> str:
    return re.findall(r'class="secret-word">([\w-]+)<', page)[0]


def signs_in(office, name: str, password: str) -> bool:
    return office.client.post("/staff/sign-in", data={"name": name, "password": password}).status_code == 303


def test_an_account_is_added_and_its_password_shown_once(office):
    password = password_in(add(office))
    assert roles(office) == {"Wren": {Role.OFFICE}, "Robin Thorne": {Role.ENGINEER}}
    assert password not in office.get(HERE).text
    assert signs_in(office, "Robin Thorne", password)


def test_what_somebody_does_is_changed(office):
    add(office)
    change = {"name": "Robin Thorne", "own": PASSWORD, "do": "roles", "role.desk": "yes", "role.engineer": "yes"}
    assert "Robin Thorne: answers the phone, goes out to homes." in office.post(f"{HERE}/change", **change).text
    assert roles(office)["Robin Thorne"] == {Role.DESK, Role.ENGINEER}


def test_a_new_password_ends_the_old_one(office):
    old = password_in(add(office))
    new = password_in(office.post(f"{HERE}/change", name="Robin Thorne", own=PASSWORD, do="password").text)
    assert (signs_in(office, "Robin Thorne", old), signs_in(office, "Robin Thorne", new)) == (False, True)


def test_an_account_that_is_ended_signs_in_no_more(office):
    password = password_in(add(office))
    office.post(f"{HERE}/change", name="Robin Thorne", own=PASSWORD, do="end")
    assert not signs_in(office, "Robin Thorne", password)
    assert "is, or was, the name of an account" in add(office)


@pytest.mark.parametrize("own", ["", "wrong wrong wrong"])
def test_nothing_is_changed_without_ones_own_password(office, own):
    assert "Your own password is not right." in add(office, own=own)
    assert "Your own password is not right." in office.post(f"{HERE}/change", name="Wren", own=own, do="password").text
    assert roles(office) == {"Wren": {Role.OFFICE}}
    assert signs_in(office, "Wren", PASSWORD)


def test_guessing_ones_own_password_is_stopped(office):
    for _ in range(5):
        add(office, own="wrong wrong wrong")
    assert "Too many tries." in add(office)


def test_nobody_locks_the_office_out(office):
    for do in ({"do": "end"}, {"do": "roles", "role.desk": "yes"}):
        told = office.post(f"{HERE}/change", name="Wren", own=PASSWORD, **do)
        assert (told.status_code, "Nobody ends their own account" in told.text) == (422, True)
    assert roles(office) == {"Wren": {Role.OFFICE}}


def test_what_cannot_be_done_is_told(office):
    assert "Tick what they do" in add(office, **{"role.none": "yes"})
    assert "Expected a name of 2 to" in add(office, name=" x ")
    assert office.post(f"{HERE}/change", name="Nobody", own=PASSWORD, do="end").status_code == 404
    assert office.post(f"{HERE}/change", name="Wren", own=PASSWORD, do="other").status_code == 404


def test_the_desk_does_not_come_in_and_every_role_has_words(office):
    password = password_in(add(office, **{"role.desk": "yes"}))
    assert signs_in(office, "Robin Thorne", password)
    assert office.get(HERE).status_code == 403
    assert set(ROLES) == set(Role)
