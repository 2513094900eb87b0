"""What the pages about the firm itself and its own people show, and that of needs: one value a template."""

from dataclasses import dataclass
from typing import ClassVar

from server.office.forms import Group
from server.office.pages import Line, Link
from server.staff.pages import StaffFrame
from server.web.frame import PhoneLink
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class AccountRow:
    """Somebody who may sign in, what they do, and the form that changes it."""

    name: str
    roles: str
    with_code: bool
    fields: Group


@dataclass(frozen=True, slots=True)
class AccountsPage(Page):
    """Everybody who may sign in; `password` is one that was just made, and is shown this once."""

    template: ClassVar[str] = "office_accounts.html.j2"
    frame: StaffFrame
    done: str
    alert: str
    password: str
    accounts: tuple[AccountRow, ...]
    new: Group


@dataclass(frozen=True, slots=True)
class LookedRow:
    """What one of our own people did with a home, once or again and again on one day."""

    when: str
    who: str
    did: str
    fields: str
    appliance: str
    key: str
    home: str


@dataclass(frozen=True, slots=True)
class LookedPage(Page):
    """What one of our own people looked at and changed, or all of them."""

    template: ClassVar[str] = "office_looked.html.j2"
    frame: StaffFrame
    who: str
    names: tuple[str, ...]
    rows: tuple[LookedRow, ...]
    further: Link | None


@dataclass(frozen=True, slots=True)
class NeedRow:
    """A need to ask about again, and whom to ring for it."""

    name: str
    phones: tuple[PhoneLink, ...]
    need: str
    due: str
    late: bool
    title: str
    home: str
    key: str
    person: str
    kind: str


@dataclass(frozen=True, slots=True)
class NeedsPage(Page):
    """The needs to ask about again."""

    template: ClassVar[str] = "office_needs.html.j2"
    frame: StaffFrame
    needs: tuple[NeedRow, ...]
    more: bool


@dataclass(frozen=True, slots=True)
class FirmPage(Page):
    """The firm's own settings, and what is missing in them."""

    template: ClassVar[str] = "office_firm.html.j2"
    frame: StaffFrame
    missing: tuple[str, ...]
    sections: tuple[tuple[str, tuple[Line, ...]], ...]
