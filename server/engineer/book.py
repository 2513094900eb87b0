"""Which form does this firm's record have, and what does one record say by now?"""

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from starlette.requests import Request

from kb.handover.checks import CHECKS
from kb.handover.form import Form, form_for
from kb.handover.record import Record, texts
from kb.handover.said import Said, said_of
from kb.handover.state import State, state_of
from server.site import Site
from server.web.errors import NotFound

ROOM = "/engineer"


@dataclass(frozen=True, slots=True)
class Opened:
    """A record that was read, what it says now, and what is said about that."""

    record: Record
    state: State
    said: tuple[Said, ...]

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
        return self.site.now().astimezone(self.site.firm.clock).date()

    def read(self, record: Record) -> Opened:
        """What a record says."""
        state = state_of(self.form, texts(record.entries), self.today())
        return Opened(record, state, said_of(state, CHECKS))

    def find(self, request: Request) -> Opened:
        """The record that an address names; raises NotFound."""
        record = self.site.store.handovers.record(request.path_params["record"])
        if record is None:
            raise NotFound
        return self.read(record)
