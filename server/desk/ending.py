"""How soon, what is promised, how the call ends, and what it leaves: the note and the engineer's brief."""

from collections.abc import Iterator
from typing import Final

from kb.appointment import due, moment, spoken, stands
from kb.article import Pace
from kb.desk.causing import causes_of
from kb.desk.events import HOW_CLOSED
from kb.desk.note import note
from kb.desk.words import PACE_WORDS
from kb.register import NEEDS, Record
from kb.staff import Role
from kb.triage.brief import brief
from kb.triage.jobs import NO_JOBS, Tally
from kb.visit.from_call import article_of, told
from kb.visit.history import LOOK_BACK, history
from server.desk.around import around
from server.desk.book import Book, Opened
from server.desk.gathering import YES_NO
from server.desk.pages import BookPage, BriefPage, FinishPage, NotePage, PacePage
from server.desk.parts import Choice, Field
from server.diary.booking import agreed_words, booking
from server.site import Site
from server.staff import Visit
from server.staff.pages import staff_frame

PEOPLE: Final = (
    ("asked", "Was it asked who is at home?", YES_NO),
    ("consent", "Do they agree that a need is noted?", YES_NO),
    ("indoor", "Degrees indoors", ()),
    ("outdoor", "Degrees outdoors", ()),
    ("other-heat", "Does something else heat the home?", YES_NO),
    ("other-hot-water", "Is there other hot water?", YES_NO),
    ("spreading", "Does the damage spread?", YES_NO),
)
CLOSING_KEYS: Final = {"booked": "1", "solved": "2", "elsewhere": "3", "emergency": "4", "no-answer": "5"}


class Ender:
    """Makes the pages at the end of a call."""

    def __init__(self, book: Book) -> None:
        """End the calls of one book."""
        self._book = book
        self._site = book.site

    def pace(self, opened: Opened, visit: Visit, alert: str) -> PacePage:
        """Who is there, how cold it is, how soon and why."""
        reading = opened.reading
        people, judged = reading.call.people, reading.judged
        noted = people.get("needs", "").split()
        return PacePage(
            frame=staff_frame(self._site, visit),
            around=around(self._book, opened, visit, alert),
            needs=tuple((kind, words, kind in noted) for kind, words in NEEDS.items()),
            fields=tuple(Field(name, label, people.get(name, ""), options) for name, label, options in PEOPLE),
            from_end=PACE_WORDS[judged.from_end],
            reasons=judged.reasons,
            unasked=judged.unasked,
            chosen=reading.call.pace_why if reading.pace is not judged.pace else "",
            fixed=judged.by_danger and judged.pace in (Pace.LEAVE, Pace.MAKE_SAFE),
            judged=judged.pace.value,
            paces=tuple((pace.value, PACE_WORDS[pace]) for pace in Pace if pace is not Pace.LEAVE),
        )

    def when(self, opened: Opened, visit: Visit, alert: str) -> BookPage:
        """When somebody comes, and who."""
        reading = opened.reading
        return BookPage(
            frame=staff_frame(self._site, visit),
            around=around(self._book, opened, visit, alert),
            agreed=agreed_words(reading.call.visit),
            booking=booking(
                self._site,
                reading.pace,
                opened.kept.began,
                reading.call.visit.engineer if reading.call.visit else "",
                visit.form,
            ),
        )

    def finish(self, opened: Opened, visit: Visit, alert: str) -> FinishPage:
        """What is promised, and how it ends."""
        call = opened.reading.call
        accounts = self._site.store.staff.accounts()
        visit_agreed, anew = call.visit, not_standing(self._site, opened)
        closings = dict(_closings(opened, bool(visit_agreed and not anew)))
        return FinishPage(
            frame=staff_frame(self._site, visit),
            around=around(self._book, opened, visit, alert),
            spoken=spoken(visit_agreed, opened.reading.pace, self._book.today()) if visit_agreed else "",
            agreed=agreed_words(visit_agreed),
            anew=anew,
            promises=tuple(f"{what} (by {by})" if by else what for what, by in call.promises),
            colleagues=tuple(each.name for each in accounts if each.may(Role.DESK) and each.name != visit.who.name),
            closings=tuple(Choice(CLOSING_KEYS[how], words, how) for how, words in closings.items()),
            closed=HOW_CLOSED.get(call.closed, ""),
            missing=tuple(_missing(opened)),
        )

    def note(self, opened: Opened, visit: Visit) -> NotePage:
        """The note."""
        place = opened.reading.place
        family = opened.home.range if opened.home else ""
        titles = {article.id: article.title for article in self._site.library.articles.values()}
        return NotePage(
            frame=staff_frame(self._site, visit),
            around=around(self._book, opened, visit),
            note=note(
                opened.reading,
                self._site.firm.clock,
                opened.home,
                self._record(opened, visit),
                causes_of(self._site.library, place, self._tally(opened), family) if place else (),
                titles,
                self._site.firm.region,
            ),
        )

    def brief(self, opened: Opened, visit: Visit) -> BriefPage | None:
        """The engineer's brief; None while nobody knows what it is about."""
        library = self._site.library
        article = article_of(library, opened.reading)
        if article is None:
            return None
        made = brief(
            article,
            {step.target: step for step in library.steps()},
            told(opened.reading, self._site.firm.clock),
            opened.home,
            self._record(opened, visit),
            self._tally(opened),
            self._history(opened),
            agreed_words(opened.reading.call.visit),
            region=self._site.firm.region,
        )
        return BriefPage(staff_frame(self._site, visit), around(self._book, opened, visit), made, PACE_WORDS[made.pace])

    def _history(self, opened: Opened) -> tuple[str, ...]:
        """The calls and visits of two years before."""
        key, zone, store = opened.kept.home, self._site.firm.clock, self._site.store
        if not key:
            return ()
        calls = store.calls.of_home(key, opened.kept.began - LOOK_BACK, opened.kept.id)
        # What began after this call is no history of it.
        jobs = [job for job in store.jobs.of_home(key) if job.told_in != opened.kept.id]
        return history([(call.began, call.how) for call in calls], jobs, zone)

    def _tally(self, opened: Opened) -> Tally:
        """What closed jobs of this fault have shown."""
        article = article_of(self._site.library, opened.reading)
        return self._site.store.jobs.tally(article.id) if article else NO_JOBS

    def _record(self, opened: Opened, visit: Visit) -> Record | None:
        if opened.home is None:
            return None
        return self._site.store.register.read(opened.home.key, visit.who.name)


def not_standing(site: Site, opened: Opened) -> str:
    """Why what was agreed must be agreed anew; nothing where it stands, or nothing was agreed."""
    agreed, zone = opened.reading.call.visit, site.firm.clock
    latest = due(opened.reading.pace, opened.kept.began, zone)
    if agreed is None or latest is None or stands(agreed, latest, zone):
        return ""
    return f"The pace wants somebody there by {moment(latest, zone)}: agree it anew, or write why it may be later."


def _closings(opened: Opened, visit_stands: bool) -> Iterator[tuple[str, str]]:
    """How a call may end by now, in words."""
    first = opened.reading.pace is Pace.LEAVE
    for how in CLOSING_KEYS:
        if (how == "booked" and (first or not visit_stands)) or (how == "solved" and first):
            continue
        then = "; our visit after it stands" if how == "emergency" and first and visit_stands else ""
        yield how, HOW_CLOSED[how] + then


def _missing(opened: Opened) -> Iterator[str]:
    """What a note still lacks that whoever comes will want."""
    call = opened.reading.call
    if not opened.reading.agenda.clear and opened.reading.agenda.end is None:
        yield "Danger is not yet cleared"
    if not call.caller.get("phone"):
        yield "No call-back number"
    if opened.home is None and not call.caller.get("address"):
        yield "No address"
    if not call.caller.get("access"):
        yield "Nothing about access"
    if not call.words:
        yield "None of their own words"
    if opened.reading.judged.unasked:
        yield f"For the pace, nobody asked {', '.join(opened.reading.judged.unasked)}"
