"""Which form does this firm's record have, and what does one record say by now?"""

from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property

from starlette.requests import Request

from kb.handover.checks import CHECKS
from kb.handover.form import Form, form_for
from kb.handover.known import told_of
from kb.handover.meanwhile import Difference, bases, differences
from kb.handover.record import Record, texts
from kb.handover.said import Said, said_of
from kb.handover.state import State, state_of
from kb.register import Record as Registered
from server.site import Site
from server.web.errors import NotFound

ROOM = "/engineer"


@dataclass(frozen=True, slots=True)
class Opened:
    """A record that was read, what it says now, what is said about that, and what the register says otherwise."""

    record: Record
    state: State
    said: tuple[Said, ...]
    apart: tuple[Difference, ...] = ()

    @property
    def address(self) -> str:
        """Where the record lies."""
        return f"{ROOM}/records/{self.record.id}"

    @property
    def title(self) -> str:
        """What the record is called: the appliance, once it is known."""
        return self.state.text("appliance") or "A new home"


class Book:
    """The handover records of one site."""

    def __init__(self, site: Site) -> None:
        """Open records of this site's store with this site's ranges and articles."""
        self.site = site

    @cached_property
    def form(self) -> Form:
        """The form, with the firm's ranges and the settings that there are articles about."""
        ranges = self.site.ranges
        return form_for(
            {id: family.name for id, family in ranges.items()},
            {article.id: article.title for article in self.site.library.settings()},
            {id: family.kind for id, family in ranges.items()},
        )

    def today(self) -> date:
        """The day where the firm is."""
        return self._day(self.site.now())

    def _day(self, moment: datetime) -> date:
        return moment.astimezone(self.site.firm.clock).date()

    def read(self, record: Record) -> Opened:
        """What a record says; one that is not signed yet is laid beside the register, too."""
        signed = record.signature
        state = state_of(self.form, texts(record.entries), self._day(signed.at) if signed else self.today())
        apart = () if signed else self.apart(record, state, self.site.store.register.things(record.key))
        return Opened(record, state, said_of(state, (*CHECKS, lambda _: [each.said for each in apart])), apart)

    def apart(self, record: Record, state: State, home: Registered | None) -> tuple[Difference, ...]:
        """What the register says by now otherwise than the record, and otherwise than when the record began."""
        return tuple(differences(state, told_of(self.form, home), bases(record))) if home else ()

    def find(self, request: Request) -> Opened:
        """The record that an address names; raises NotFound."""
        record = self.site.store.handovers.record(request.path_params["record"])
        if record is None:
            raise NotFound
        return self.read(record)
