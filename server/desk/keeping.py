"""How does what a form says become an event that is kept once?

Each form carries an id of its page, from which the event's own id follows: the same thing sent twice is kept once, and
another answer from the same page is another event.
"""

from collections.abc import Mapping
from hashlib import blake2b
from secrets import token_urlsafe

from starlette.responses import RedirectResponse, Response

from kb.desk.events import LONGEST_WORDS, Did, Event
from server.desk.book import Opened
from server.desk.showing import Shown
from server.site import Site
from server.staff import Visit


class Keeper:
    """Keeps what happens in the calls of one site."""

    def __init__(self, site: Site) -> None:
        """Keep events in a site's store."""
        self.site = site
        self.shown = Shown(site)
        self.book = self.shown.book

    def find(self, visit: Visit) -> Opened:
        """The call that a form is about; raises NotFound."""
        return self.book.find(visit.request)

    def did(self, visit: Visit, did: Did, said: Mapping[str, str]) -> Response:
        """Keep what happened, and go on to whatever the call needs next."""
        opened = self.find(visit)
        self.keep(opened, visit, did, said)
        return onward(opened)

    def keep(self, opened: Opened, visit: Visit, did: Did, said: Mapping[str, str]) -> None:
        """Keep what happened."""
        named = " ".join(f"{name}={words}" for name, words in sorted(said.items()))
        event = Event(id_of(visit, f"{did} {named}"), self.site.now(), visit.who.name, did, said)
        self.site.store.calls.add(opened.kept.id, event)

    def danger(self, opened: Opened, words: str, code: str = "") -> Mapping[str, str]:
        """What words, or a code, may mean of danger, as it stands in an event."""
        found = self.shown.gatherer.ask(opened, words, code).danger if words.strip() or code else ()
        return {"danger": " ".join(found)} if found else {}


def onward(opened: Opened) -> Response:
    """On to whatever the call needs next."""
    return RedirectResponse(opened.address, 303)


def id_of(visit: Visit, what: str) -> str:
    """The id of what a form does, the same for the same form sent twice."""
    sent = visit.form.get("id", "") or token_urlsafe(12)
    return blake2b(f"{sent[:40]} {visit.who.name} {what}".encode(), digest_size=12).hexdigest()


def text(visit: Visit, name: str) -> str:
    """What somebody typed, without what some kind of database would refuse."""
    plain = "".join(sign for sign in visit.form.get(name, "") if sign != "\0" and not "\ud800" <= sign <= "\udfff")
    return " ".join(plain[:LONGEST_WORDS].split())


def those(visit: Visit, fields: Mapping[str, str]) -> dict[str, str]:
    """What somebody typed into these fields, of those that the form has."""
    return {name: text(visit, name) for name in fields if name in visit.form}
