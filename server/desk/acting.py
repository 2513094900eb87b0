"""What the desk writes down while somebody talks: danger, who rings, which home, what is wrong."""

from collections.abc import Callable, Mapping
from datetime import timedelta
from typing import TypeAlias

from starlette.responses import RedirectResponse, Response

from kb.desk.danger import Said
from kb.desk.events import CALLER_FIELDS, FLAGS, TOLD_FIELDS, Did
from kb.keys import tidy
from kb.triage.pace import REPEAT_DAYS
from server.desk.book import ROOM, Opened
from server.desk.gathering import NO_HOME
from server.desk.keeping import Keeper, id_of, onward, text, those
from server.desk.showing import send
from server.finding import joined, typed_in
from server.staff import Visit
from server.web.errors import NotFound

Verbs: TypeAlias = Mapping[str, Callable[[Visit], Response]]
"""What can be done, by the last part of its address."""


class Acting:
    """What is written down in a call."""

    def __init__(self, keeper: Keeper) -> None:
        """Act on the calls of one keeper."""
        self._keeper = keeper
        self._site = keeper.site
        self._shown = keeper.shown
        self._book = keeper.book

    def verbs(self) -> Verbs:
        """Everything that can be done here, by the last part of its address."""
        return {
            "asked": self.asked,
            "again": self.again,
            "slipped": self.slipped,
            "caller": self.caller,
            "home": self.home,
            "told": self.told,
            "noted": self.noted,
            "flag": self.flag,
            "drop": self.drop,
            "take": self.take,
        }

    def begin(self, visit: Visit) -> Response:
        """A new call, which is danger at once."""
        id = id_of(visit, "begin")
        self._site.store.calls.begin(id, visit.who.name, self._site.now())
        return RedirectResponse(f"{ROOM}/{id}", 303)

    def asked(self, visit: Visit) -> Response:
        """The answer to one danger question; anything but a plain answer is none."""
        said = next((each.value for each in Said if each == visit.form.get("answer")), "")
        return self._keeper.did(visit, Did.ASKED, {"step": visit.form.get("step", ""), "answer": said})

    def again(self, visit: Visit) -> Response:
        """Danger came up once more."""
        which = "gas-alarm" if visit.form.get("which") == "gas-alarm" else "all"
        return self._keeper.did(visit, Did.ASK_AGAIN, {"which": which})

    def slipped(self, visit: Visit) -> Response:
        """A yes was a slip of the finger; why is kept."""
        why = text(visit, "why")
        if not why.strip():
            return self._shown.at(self._book.find(visit.request), visit, "Write why the yes is taken back.")
        return self._keeper.did(visit, Did.SLIPPED, {"why": why})

    def caller(self, visit: Visit) -> Response:
        """What is known of the caller, and on to the homes that a scrap of it may mean."""
        opened = self._book.find(visit.request)
        fields = those(visit, CALLER_FIELDS)
        danger = self._keeper.danger(opened, fields.get("access", ""))
        self._keeper.keep(opened, visit, Did.CALLER, {**fields, **danger})
        scrap = text(visit, "scrap")
        if scrap:
            return self._found(visit, typed_in(scrap))
        if "scrap" in visit.form and opened.home is None:
            return RedirectResponse(f"{opened.address}/who", 303)
        return RedirectResponse(opened.address, 303)

    def _found(self, visit: Visit, scrap: str) -> Response:
        """On to the homes that a scrap may mean; danger that came up meanwhile goes first."""
        opened = self._book.find(visit.request)
        if opened.reading.agenda.next is not None:
            return RedirectResponse(opened.address, 303)
        gatherer = self._shown.gatherer
        hits = gatherer.find(scrap, visit)
        if not hits:
            return send(gatherer.nothing(opened, visit, scrap))
        old = f"?old={tidy(scrap)}" if self._book.old_card(scrap) else ""
        return RedirectResponse(f"{opened.address}/who/{joined(hit.key for hit in hits)}{old}", 303)

    def home(self, visit: Visit) -> Response:
        """The home is this one, or nobody knows which."""
        opened = self._book.find(visit.request)
        key = visit.form.get("key", "")
        home = self._book.home(key)
        if home is None and key != NO_HOME:
            raise NotFound
        said = {"key": home.key if home else ""}
        if home is not None:
            since = self._site.now() - timedelta(days=REPEAT_DAYS)
            earlier = self._site.store.calls.of_home(home.key, since, but=opened.kept.id)
            said |= {"repeat": earlier[0].began.date().isoformat()} if earlier else {}
        self._keeper.keep(opened, visit, Did.HOME, said)
        if home is not None:
            self._known_people(opened, visit, home.key)
        return RedirectResponse(opened.address, 303)

    def told(self, visit: Visit) -> Response:
        """The caller's words, and what works."""
        opened = self._book.find(visit.request)
        words, fields = text(visit, "words"), those(visit, TOLD_FIELDS)
        if words:
            self._keeper.keep(opened, visit, Did.WORDS, {"words": words, **self._keeper.danger(opened, words)})
        before = opened.reading.call.told
        new = {name: each for name, each in fields.items() if each != before.get(name, "")}
        if new:
            spoken = f"{new.get('since', '')} {new.get('changed', '')}"
            self._keeper.keep(
                opened, visit, Did.TOLD, {**fields, **self._keeper.danger(opened, spoken, new.get("code", ""))}
            )
        return RedirectResponse(f"{opened.address}/what", 303)

    def noted(self, visit: Visit) -> Response:
        """Anything else worth keeping; its words are searched for danger as well."""
        opened = self._book.find(visit.request)
        words = text(visit, "words")
        if words:
            self._keeper.keep(opened, visit, Did.NOTED, {"words": words, **self._keeper.danger(opened, words)})
        return onward(opened)

    def flag(self, visit: Visit) -> Response:
        """One thing a caller cannot do, on or off."""
        opened = self._book.find(visit.request)
        flags = opened.reading.call.flags ^ ({visit.form.get("flag", "")} & set(FLAGS))
        return self._keeper.did(visit, Did.FLAGS, {"flags": " ".join(sorted(flags))})

    def drop(self, visit: Visit) -> Response:
        """The line dropped; the call stays in the list with its number."""
        self._keeper.keep(self._book.find(visit.request), visit, Did.DROPPED, {})
        return RedirectResponse(ROOM, 303)

    def take(self, visit: Visit) -> Response:
        """Take a call over from a colleague."""
        return self._keeper.did(visit, Did.HANDED, {"to": visit.who.name})

    def _known_people(self, opened: Opened, visit: Visit, key: str) -> None:
        """What the register knows that somebody there needs."""
        record = self._site.store.register.read(key, visit.who.name)
        people = record.people if record else ()
        needs = dict.fromkeys(need.kind for person in people for need in person.needs)
        if needs and not opened.reading.call.people.get("needs"):
            self._keeper.keep(opened, visit, Did.PEOPLE, {"needs": " ".join(needs), "consent": "yes"})
