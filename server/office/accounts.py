"""Who may sign in, and as what? Added, changed, given a new password, ended.

Whoever changes that gives their own password again, so a browser left open lets nobody else in.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from starlette.responses import Response

from kb.staff import Account, Role, made_password, wrong_name
from server.office.firm_pages import AccountRow, AccountsPage
from server.office.forms import Field, Group
from server.office.room import ROOM, Room, Ways
from server.staff import Visit
from server.staff.passwords import hashed
from server.staff.signing_in import Refusal, confirm
from server.store.staff import NameTaken
from server.web.errors import NotFound
from server.web.pages import answer

HERE: Final = f"{ROOM}/accounts"
ROLES: Final[Mapping[Role, str]] = {
    Role.DESK: "Answers the phone",
    Role.ENGINEER: "Goes out to homes",
    Role.OFFICE: "Runs the office",
}
"""What each role does, in words."""

_NOT_YOU: Final = {
    Refusal.WRONG: "Your own password is not right. Nothing was changed.",
    Refusal.WAIT: "Too many tries. Wait fifteen minutes. Nothing was changed.",
}
_NO_ROLE: Final = "Tick what they do: at least one. Nothing was changed."
_OWN: Final = "Nobody ends their own account, or takes the office from it: then nobody might be left to undo it."


def add(ways: Ways, room: Room) -> None:
    """The page of accounts, and what it does."""
    accounts = _Accounts(room)
    ways.shows(HERE, accounts.show)
    ways.does(HERE, accounts.make)
    ways.does(f"{HERE}/change", accounts.change)


@dataclass(frozen=True, slots=True)
class _Told:
    """What is said above the page, and a password that is shown this once."""

    done: str = ""
    alert: str = ""
    password: str = ""


@dataclass(frozen=True, slots=True)
class _Accounts:
    room: Room

    def show(self, visit: Visit) -> Response:
        return answer(self._page(visit, _Told()))

    def make(self, visit: Visit) -> Response:
        name, roles = visit.form.get("name", "").strip(), _roles(visit.form)
        alert = self._refused(visit) or wrong_name(name) or ("" if roles else _NO_ROLE)
        if alert:
            return answer(self._page(visit, _Told(alert=alert)), 422)
        password = made_password()
        try:
            self.room.site.store.staff.add(Account(name, roles), hashed(password), self.room.site.now())
        except NameTaken:
            alert = f"{name} is, or was, the name of an account. Choose another, since old records name the first."
            return answer(self._page(visit, _Told(alert=alert)), 422)
        return answer(self._page(visit, _Told(f"{name} may sign in now.", password=password)))

    def change(self, visit: Visit) -> Response:
        """Do with an account what a button says."""
        name, do = visit.form.get("name", ""), visit.form.get("do", "")
        if name not in {account.name for account in self.room.site.store.staff.accounts()}:
            raise NotFound
        alert = self._refused(visit) or self._locked(visit, name, do)
        told = _Told(alert=alert) if alert else self._done(name, do, _roles(visit.form))
        return answer(self._page(visit, told), 422 if told.alert else 200)

    def _done(self, name: str, do: str, roles: frozenset[Role]) -> _Told:
        staff = self.room.site.store.staff
        if do == "roles":
            staff.set_roles(name, roles)
            return _Told(f"{name}: {_in_words(roles)}.")
        if do == "password":
            password = made_password()
            staff.set_password(name, hashed(password))
            staff.end_sessions(name)
            return _Told(f"{name} has a new password and is signed out everywhere.", password=password)
        if do == "sign-out":
            staff.end_sessions(name)
            return _Told(f"{name} is signed out everywhere.")
        if do == "end":
            staff.end(name, self.room.site.now())
            return _Told(f"{name} signs in no more. The name stays in what they did.")
        raise NotFound

    def _refused(self, visit: Visit) -> str:
        address = visit.request.client.host if visit.request.client else ""
        staff, own = self.room.site.store.staff, visit.form.get("own", "")
        refusal = confirm(staff, visit.who.name, own, address, self.room.site.now())
        return _NOT_YOU[refusal] if refusal else ""

    def _locked(self, visit: Visit, name: str, do: str) -> str:
        roles = _roles(visit.form)
        if do == "roles" and not roles:
            return _NO_ROLE
        own = name == visit.who.name and (do == "end" or (do == "roles" and Role.OFFICE not in roles))
        return _OWN if own else ""

    def _page(self, visit: Visit, told: _Told) -> AccountsPage:
        accounts = self.room.site.store.staff.accounts()
        rows = tuple(
            AccountRow(each.name, _in_words(each.roles), each.with_code, _fields(f"n{n}", each.name, each.roles))
            for n, each in enumerate(accounts, 1)
        )
        new = Group("A new account", (Field("name", "Name"), *_ticks("new", frozenset()), _own("new")))
        return AccountsPage(self.room.frame(visit), told.done, told.alert, told.password, rows, new)


def _fields(prefix: str, name: str, roles: frozenset[Role]) -> Group:
    return Group(name, (*_ticks(prefix, roles), _own(prefix)), prefix)


def _ticks(prefix: str, roles: frozenset[Role]) -> tuple[Field, ...]:
    return tuple(
        Field(f"role.{role}", words, "tick", "yes", ticked=role in roles, prefix=prefix)
        for role, words in ROLES.items()
    )


def _own(prefix: str) -> Field:
    return Field("own", "Your own password", "password", prefix=prefix)


def _roles(form: Mapping[str, str]) -> frozenset[Role]:
    return frozenset(role for role in Role if form.get(f"role.{role}"))


def _in_words(roles: frozenset[Role]) -> str:
    words = ", ".join(words.lower() for role, words in ROLES.items() if role in roles)
    return words or "nothing"
