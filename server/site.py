"""All that one firm's site serves from, put together once."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime

from kb.contact import number_of
from kb.facts import Known
from kb.firm import Firm
from kb.home import Home, home_limits
from kb.library import Library
from kb.logo import Logo
from kb.ranges import Range
from kb.region import Region
from kb.search import Finder
from server.store import Store


def _now() -> datetime:
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class Site:
    """A checked library and its search, the firm, its ranges and logo, and the store of homes.

    `earlier` are the libraries that were served before, the newest first.
    `unheard` says that nobody is told of a request to call, so that it waits on the desk's list alone.
    """

    library: Library
    finder: Finder
    firm: Firm
    ranges: Mapping[str, Range]
    store: Store
    now: Callable[[], datetime] = field(default=_now)
    logo: Logo | None = None
    earlier: Iterable[Library] = ()
    unheard: bool = False

    @property
    def region(self) -> Region:
        """The profile of the region the firm works in."""
        return self.library.regions[self.firm.region]

    def known(self, home: Home) -> Known:
        """What is known of a home before anybody asks: its facts, and its appliance's own limits."""
        appliance = self.ranges.get(home.range)
        return home_limits(home, appliance) if appliance else home.known

    def number(self, kind: str) -> str:
        """The emergency number of a kind for this place."""
        return number_of(kind, self.firm, self.region)
