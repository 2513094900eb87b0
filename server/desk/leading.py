"""A call as it stands to the page that leads it on: danger first, then who, then what, then the script."""

from collections.abc import Iterator
from typing import Final

from kb.article import Audience, End, Step
from kb.bounds import with_figures
from kb.contact import first_aid_lines, whom
from kb.desk import flags
from kb.desk.danger import Because, questions
from kb.desk.events import CALLER_FIELDS
from kb.desk.script import Place
from kb.desk.unsure import CANNOT, unable_answer, unsure_answer, way_out
from kb.guide import By
from kb.prose import Block
from server.desk.around import around
from server.desk.book import Book, Opened
from server.desk.pages import DangerPage, EmergencyPage, EndPage, StepPage
from server.desk.parts import Choice, Field, Told
from server.diary.booking import agreed_words
from server.staff import Visit
from server.staff.pages import staff_frame

WHY: Final = {
    Because.FIRST: "Before anything else",
    Because.AGAIN: "Danger once more",
    Because.WORDS: "Their words may mean danger. Ask this now",
    Because.LONG: "The call is longer than five minutes. Ask this again",
}
"""Why a danger question is asked."""

CANT_TELL: Final = "They can't tell"


class Leader:
    """Makes the pages that lead a call on."""

    def __init__(self, book: Book) -> None:
        """Lead the calls of one book."""
        self._book = book
        self._site = book.site

    def danger(self, opened: Opened, step: Step, visit: Visit, alert: str) -> DangerPage:
        """One danger question."""
        agenda = opened.reading.agenda
        every = questions(self._site.library)
        return DangerPage(
            frame=staff_frame(self._site, visit),
            around=around(self._book, opened, visit, alert),
            why=WHY[agenda.because],
            words=agenda.words,
            place=every.index(step) + 1,
            of=len(every),
            step=step.anchor,
            title=step.title,
            body=step.body,
            rules=self._rules(),
        )

    def emergency(self, opened: Opened, end: End, visit: Visit, alert: str, back: int = -1) -> EmergencyPage:
        """Exactly what to say, and the number; `back` is the place of the answer that led here, if one did."""
        firm, region = self._site.firm, self._site.region
        contact = whom(end, firm, region, opened.known.facts.get("fuel"))
        caller = opened.reading.call.caller
        return EmergencyPage(
            frame=staff_frame(self._site, visit),
            around=around(self._book, opened, visit, alert),
            title=end.title,
            pace=end.pace.value,
            actions=first_aid_lines(end, firm, region),
            call_name=contact.name,
            number=contact.number,
            digits=read_out(contact.number),
            ours=contact.number == firm.phone.number,
            body=end.body,
            passages=self._site.library.passages(end, opened.known.facts),
            back=back,
            branch=opened.reading.call.current,
            fields=tuple(Field(name, CALLER_FIELDS[name], caller.get(name, "")) for name in ("phone", "address")),
            agreed=agreed_words(opened.reading.call.visit),
        )

    def script(self, opened: Opened, place: Place, visit: Visit, alert: str, typed: str = "") -> StepPage | EndPage:
        """The step that waits, or the end."""
        if isinstance(place.at, End):
            return self._end(opened, place, place.at, visit, alert)
        return self._step(opened, place, place.at, visit, alert, typed)

    def _rules(self) -> tuple[tuple[str, tuple[Block, ...]], ...]:
        """What the danger article says to whoever answers the phone."""
        danger = self._site.library.danger
        steps = danger.steps if danger else ()
        return tuple((step.title, step.body) for step in steps if step.audience is Audience.ENGINEER)

    def _step(self, opened: Opened, place: Place, step: Step, visit: Visit, alert: str, typed: str) -> StepPage:
        call = opened.reading.call
        own_of, own = self._own_words(step, opened)
        hint = flags.out_of_reach(step, call.flags)
        return StepPage(
            frame=staff_frame(self._site, visit),
            around=around(self._book, opened, visit, alert),
            about=self._title(place),
            branch=call.current,
            place=place.onward,
            title=step.title,
            intro=self._intro(place, step),
            body=step.body,
            own_words_of=own_of,
            own_words=own,
            hint=hint,
            asks_reading=step.reading is not None,
            typed=typed,
            choices=tuple(
                Choice(str(number), answer.text, answer.token, with_figures(answer.bounds, opened.known.marks))
                for number, answer in enumerate(step.answers, 1)
            ),
            way_out=self._way_out(step, unable=bool(hint)),
            told=tuple(_told(place)),
            gone=place.unasked,
            waiting=len(place.waiting) if isinstance(place.at, Step) else 0,
            lost=place.branch.lost,
            unread=place.branch.unread,
            passages=flags.passages(self._site.library, call.flags),
        )

    def _end(self, opened: Opened, place: Place, end: End, visit: Visit, alert: str) -> EndPage:
        site, reading = self._site, opened.reading
        facts = place.standing.facts
        contact = whom(end, site.firm, site.region, facts.get("fuel"))
        by_flags = flags.passages(site.library, reading.call.flags)
        shared = [each for each in site.library.passages(end, facts) if each not in by_flags]
        return EndPage(
            frame=staff_frame(site, visit),
            around=around(self._book, opened, visit, alert),
            about=self._title(place),
            branch=reading.call.current,
            title=end.title,
            actions=first_aid_lines(end, site.firm, site.region),
            call_name="" if contact.number == site.firm.phone.number else contact.name,
            number=contact.number,
            body=end.body,
            passages=(*by_flags, *shared),
            reasons=reading.judged.reasons,
            told=tuple(_told(place)),
            gone=place.unasked,
            waiting=len(place.waiting) if isinstance(place.at, Step) else 0,
            lost=place.branch.lost,
            unread=place.branch.unread,
        )

    def _way_out(self, step: Step, unable: bool) -> Choice:
        """What "they can't tell" leads to: the step's own answer for it, else an end."""
        answer = unable_answer(step) if unable else unsure_answer(step)
        words = "They can't do it" if unable else CANT_TELL
        if answer is not None:
            return Choice("0", words, answer.token, f"“{answer.text}”")
        return Choice("0", words, CANNOT, way_out(self._site.library, step).title)

    def _title(self, place: Place) -> str:
        return self._site.library.articles[place.branch.article].title

    def _intro(self, place: Place, step: Step) -> tuple[Block, ...]:
        article = self._site.library.articles[step.article]
        first = article.first(Audience.HOUSEHOLD)
        return article.intro if step == first and step.article == place.branch.article else ()

    def _own_words(self, step: Step, opened: Opened) -> tuple[str, tuple[Block, ...]]:
        """What the appliance's own instructions say about the thing this step tries."""
        home = opened.home
        family = self._site.ranges.get(home.range) if home else None
        if home is None or family is None or step.limit is None:
            return "", ()
        own = {"reset": family.reset, "top-up": family.filling}.get(step.limit.action or "")
        return (home.appliance, own) if own else ("", ())


def read_out(number: str) -> str:
    """A number as it is read out: its groups apart, a figure at a time."""
    groups = [" ".join(group) for group in number.split()]
    return ", ".join(groups)


def _told(place: Place) -> Iterator[Told]:
    for number, taken in zip(place.places, place.standing.taken, strict=True):
        if taken.by is By.NONE_OF_THESE or taken.step.article == "danger":
            continue
        reading = f" ({taken.reading:g} bar)" if taken.reading is not None else ""
        yield Told(taken.step.title, taken.answer.text + reading, place.rank(max(number, 0)), taken.by is By.FACT)
    if place.cannot is not None:
        yield Told(place.cannot.title, CANT_TELL, place.onward - 1, False)
