"""What stands around every page of a call: the clock, the caller, the home, the flags, the faults."""

from collections.abc import Iterator
from secrets import token_hex

from kb.desk.call import Call
from kb.desk.danger import Agenda
from kb.desk.events import FLAGS
from kb.desk.words import PACE_WORDS
from kb.facts import FACT_NAMES, FACTS
from kb.home import PLACES
from kb.numbers import to_ring
from server.desk.book import Book, Opened
from server.desk.parts import Around, Choice, Detail
from server.staff import Visit
from server.web.static import asset

FLAG_KEYS = {"not-there": "h", "no-climbing": "k", "tenant": "t", "text-only": "x"}
"""The key of each thing a caller cannot do, or is."""


def around(book: Book, opened: Opened, visit: Visit, alert: str = "") -> Around:
    """The surroundings of a call's page, at this moment."""
    call, reading = opened.reading.call, opened.reading
    ring = to_ring(call.caller.get("phone", ""), book.site.firm.region)
    paced = bool(call.branches) or reading.agenda.end is not None
    return Around(
        address=opened.address,
        script=asset("desk.js").address,
        style=asset("desk.css").address,
        id=token_hex(8),
        began=opened.kept.began.isoformat(),
        seconds=max(0, int((book.site.now() - opened.kept.began).total_seconds())),
        elapsed=book.elapsed(opened.kept),
        holder=opened.kept.holder,
        mine=opened.kept.holder == visit.who.name,
        open=opened.kept.closed is None,
        due_in=book.due_in(opened) if opened.kept.closed is None else -1,
        alert=alert,
        dropped=ring_back(call, reading.agenda),
        caller=", ".join(filter(None, (call.caller.get("name"), ring[0] if ring else call.caller.get("phone")))),
        ring=(ring,) if ring else (),
        home=tuple(_home(opened)),
        quoted=tuple(quoted.words for quoted in call.words),
        flags=tuple(
            Choice(FLAG_KEYS[flag], f"The caller {words}", flag, "on" if flag in call.flags else "")
            for flag, words in FLAGS.items()
        ),
        faults=tuple(_faults(book, opened)),
        pace=reading.pace.value if paced else "",
        pace_words=PACE_WORDS[reading.pace] if paced else "",
    )


def ring_back(call: Call, danger: Agenda) -> str:
    """What to do about a line that dropped; danger that was not cleared is not left to a phone that nobody answers."""
    if not call.dropped:
        return ""
    phone = call.caller.get("phone")
    further = "" if danger.clear else " If nobody answers, tell the emergency service."
    return f"Ring back on {phone}.{further}" if phone else f"No number to ring back on.{further}"


def _home(opened: Opened) -> Iterator[Detail]:
    """What is known of the home, so that it is read here and not asked."""
    if opened.home is None:
        return
    read_out = opened.reading.call.old_key or opened.reading.call.key
    if read_out and read_out != opened.home.key:
        yield Detail("New card", f"{opened.home.key}. Key {read_out} was replaced, and its card opens nothing any more")
    yield Detail("Appliance", opened.home.appliance)
    for fact, name in FACT_NAMES.items():
        value = opened.known.facts.get(fact)
        if value:
            yield Detail(name, FACTS[fact].get(value, value))
    for place, words in opened.home.places.items():
        yield Detail(PLACES[place].capitalize(), words)


def _faults(book: Book, opened: Opened) -> Iterator[Choice]:
    """The other faults of the call, to turn back to."""
    for number, branch in enumerate(opened.reading.call.branches):
        if number != opened.reading.call.current:
            article = book.site.library.articles.get(branch.article)
            yield Choice("", article.title if article else branch.article, str(number))
