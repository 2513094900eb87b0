"""How soon, what is promised, how the call ends, and what it leaves: the note and the engineer's brief."""

from collections.abc import Iterator
from typing import Final

from kb.article import Pace
from kb.desk.causing import causes_of, given
from kb.desk.events import HOW_CLOSED
from kb.desk.note import note
from kb.desk.script import Place
from kb.desk.words import PACE_WORDS, SAID_WORDS, clock
from kb.register import NEEDS, Record
from kb.staff import Role
from kb.triage import brief as briefs
from kb.walk import By
from server.desk.around import around
from server.desk.book import Book, Opened
from server.desk.gathering import YES_NO
from server.desk.pages import BriefPage, FinishPage, NotePage, PacePage
from server.desk.parts import Choice, Field
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

    def finish(self, opened: Opened, visit: Visit, alert: str) -> FinishPage:
        """What is promised, and how it ends."""
        call = opened.reading.call
        accounts = self._site.store.staff.accounts()
        return FinishPage(
            frame=staff_frame(self._site, visit),
            around=around(self._book, opened, visit, alert),
            promises=tuple(f"{what} (by {by})" if by else what for what, by in call.promises),
            colleagues=tuple(each.name for each in accounts if each.may(Role.DESK) and each.name != visit.who.name),
            closings=tuple(Choice(key, HOW_CLOSED[how], how) for how, key in CLOSING_KEYS.items()),
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
                causes_of(self._site.library, place, range=family) if place else (),
                titles,
            ),
        )

    def brief(self, opened: Opened, visit: Visit) -> BriefPage | None:
        """The engineer's brief; None while no fault was begun."""
        place, library = opened.reading.place, self._site.library
        if place is None:
            return None
        walked = [place.branch.article, *(taken.step.article for taken in place.standing.taken)]
        article = next((a for each in reversed(walked) if (a := library.articles[each]).causes), None)
        made = briefs.brief(
            article or library.articles[place.branch.article],
            {step.target: step for step in library.steps()},
            self._told(opened, place),
            opened.home,
            self._record(opened, visit),
            history=[f"They rang before, on {opened.reading.call.repeat}"] if opened.reading.call.repeat else [],
        )
        return BriefPage(staff_frame(self._site, visit), around(self._book, opened, visit), made, PACE_WORDS[made.pace])

    def _told(self, opened: Opened, place: Place) -> briefs.Told:
        call, zone = opened.reading.call, self._site.firm.clock
        counts = {action: (place.said_before.get(action, 0), place.tries.get(action, 0))
                  for action in {**place.said_before, **place.tries}}  # fmt: skip
        danger = [
            briefs.Answer(asked.step.title, SAID_WORDS[asked.said], clock(asked.at, zone))
            for asked in opened.reading.agenda.answered
        ]
        return briefs.Told(
            pace=opened.reading.pace,
            end=place.at.title,
            given=given(place),
            answers=tuple(_answers(place)),
            danger=tuple(danger),
            tried=counts,
            words=tuple(quoted.words for quoted in call.words),
            shown=call.told.get("code", ""),
            access=(briefs.Answer("Access", call.caller["access"]),) if call.caller.get("access") else (),
            promised=tuple(f"{what} (by {by})" if by else what for what, by in call.promises),
        )

    def _record(self, opened: Opened, visit: Visit) -> Record | None:
        if opened.home is None:
            return None
        return self._site.store.register.read(opened.home.key, visit.who.name)


def _answers(place: Place) -> Iterator[briefs.Answer]:
    for taken in place.standing.taken:
        if taken.step.article != "danger" and taken.by is not By.NONE_OF_THESE:
            reading = f" ({taken.reading:g} bar)" if taken.reading is not None else ""
            yield briefs.Answer(taken.step.title, taken.answer.text + reading)


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
