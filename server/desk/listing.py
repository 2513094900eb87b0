"""Which calls are open, whose are they, and who is to be asked again?"""

from secrets import token_hex

from kb.days import short_day
from kb.desk.call import read_call
from kb.desk.danger import agenda
from server.desk.around import ring_back
from server.desk.book import ROOM, Book
from server.desk.pages import CallsPage
from server.desk.parts import Due, Listed
from server.desk.requesting import waiting
from server.staff import Visit
from server.staff.pages import staff_frame
from server.store.calls import Kept
from server.web.static import asset


def calls_page(book: Book, visit: Visit) -> CallsPage:
    """The list, one's own calls first."""
    store = book.site.store.calls
    kept = sorted(store.open(), key=lambda each: each.holder != visit.who.name)
    return CallsPage(
        frame=staff_frame(book.site, visit),
        script=asset("desk.js").address,
        style=asset("desk.css").address,
        id=token_hex(8),
        calls=tuple(_listed(book, each, number, visit) for number, each in enumerate(kept, 1)),
        asking=waiting(book.site, visit),
        due=tuple(_due(book, each) for each in store.to_follow(book.site.now())),
    )


def _listed(book: Book, kept: Kept, number: int, visit: Visit) -> Listed:
    call = read_call(kept.events)
    return Listed(
        address=f"{ROOM}/{kept.id}",
        key=str(number) if number < 10 else "",
        title=title_of(book, kept),
        state=_state(book, kept),
        elapsed=book.elapsed(kept),
        holder=kept.holder,
        mine=kept.holder == visit.who.name,
        dropped=ring_back(call, agenda(book.site.library, kept.events)),
    )


def title_of(book: Book, kept: Kept) -> str:
    """What a call is called: who rang, about what."""
    call = read_call(kept.events)
    home = book.home(kept.home)
    who = call.caller.get("name") or call.caller.get("phone") or (home.appliance if home else "")
    what = call.words[-1].words if call.words else ""
    return ": ".join(filter(None, (who, f"“{what[:80]}”" if what else ""))) or "Somebody, nothing said yet"


def _state(book: Book, kept: Kept) -> str:
    danger = agenda(book.site.library, kept.events)
    if danger.end is not None:
        return danger.end.title
    if danger.waiting:
        return "Danger not yet cleared"
    call = read_call(kept.events)
    article = book.site.library.articles.get(call.branch.article) if call.branch else None
    return article.title if article else "Danger cleared"


def _due(book: Book, kept: Kept) -> Due:
    return Due(f"{ROOM}/{kept.id}", token_hex(8), title_of(book, kept), short_day(kept.began))
