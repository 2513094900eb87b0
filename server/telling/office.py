"""Which ways does this firm have to be told, and what runs in the background for them?"""

from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager
from datetime import datetime, timedelta
from typing import Final

from kb.firm import Firm
from server.settings import Settings
from server.site import Site
from server.telling.courier import Courier
from server.telling.hands import Hand
from server.telling.mail import Mail
from server.telling.rounds import Round
from server.telling.webhook import Webhook

_ERASE_EVERY: Final = timedelta(hours=1)


def couriers(settings: Settings, firm: Firm, now: Callable[[], datetime]) -> tuple[Courier, ...]:
    """Every way that the settings of this machine name."""
    ways: list[Courier] = []
    if settings.mail:
        ways.append(Mail(settings.mail, firm))
    if settings.hook:
        ways.append(Webhook(settings.hook, firm, now))
    return tuple(ways)


class Office:
    """Keeps what a household asks, has the firm told of it, and forgets it in time."""

    def __init__(self, site: Site, ways: Sequence[Courier] = ()) -> None:
        """Tell one site's firm in these ways."""
        self.ways = tuple(courier.way for courier in ways)
        self._rounds = [Hand(courier.way, Round(site.store.outbox, courier, site.now).go) for courier in ways]
        self._site = site

    def call(self) -> None:
        """Have told at once what was just asked."""
        for hand in self._rounds:
            hand.call()

    @contextmanager
    def at_work(self) -> Iterator[None]:
        """Tell and forget in the background for the time being."""
        with ExitStack() as stack:
            for hand in (*self._rounds, Hand("forgetting", self._forget)):
                stack.enter_context(hand)
            yield

    def _forget(self) -> timedelta:
        self._site.store.requests.erase_old(self._site.now())
        return _ERASE_EVERY
