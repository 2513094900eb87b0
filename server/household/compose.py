"""Where somebody stands to what the page shows."""

from collections.abc import Iterator
from typing import Final

from kb.article import Audience, End, Step
from kb.bounds import with_figures
from kb.facts import NOTHING_KNOWN, Known
from kb.guide import By, Trouble, answer_to, none_of
from kb.home import Home
from kb.prose import Block
from kb.reference import reference
from kb.trail import Followed, gone_words, resume, unmet_words
from kb.walk import Standing
from server.household.ending import Arrival, end_page
from server.household.gauges import drawn_gauge
from server.household.pages import Choice, DangerPage, EndPage, Question, StepPage, Told
from server.site import Site
from server.web.frame import Frame, frame
from server.web.readings import figure

TROUBLES: Final = {
    Trouble.GARBLED: "Part of this page's address cannot be read. Please go on from here.",
    Trouble.TOO_LONG: "This page's address is too long to be real. Please begin again here.",
    Trouble.READING_ELSEWHERE: "The figure in this page's address does not belong here. Please read the gauge again.",
    Trouble.PAST_THE_END: "This page's address goes on after the end. This is where your answers lead.",
}
"""What a household is told when its trail cannot be followed."""


def _notice(followed: Followed) -> str:
    """What a household is told of a trail that did not lead where it led before; nothing of answers that wait."""
    standing = followed.standing
    at_end = isinstance(standing.at, End)
    gone = [each for each in followed.gone if at_end or not each.perhaps]
    if standing.trouble is not Trouble.ANSWER_GONE:
        return TROUBLES[standing.trouble] if standing.trouble else ""
    words = [*gone_words(gone), *unmet_words(followed.waiting if at_end else ())]
    kept = gone and not at_end and len(followed.pieces) > len(gone)
    return " ".join([*words, "Your other answers still count."] if kept else words)


def base_of(home: Home | None) -> str:
    """What is put before every address: a home's own pages lie behind its key."""
    return f"/h/{home.key}" if home else ""


class Composer:
    """Makes the pages of a walk for one site."""

    def __init__(self, site: Site) -> None:
        """Compose from what `site` holds."""
        self.site = site

    def walk(self, start: Step, trail: str, home: Home | None) -> tuple[DangerPage | StepPage | EndPage, int]:
        """The page a trail leads to, and its status: 422 where part of the trail could not be followed."""
        followed = resume(self.site.library, start, trail, self.known(home))
        notice = _notice(followed)
        return self._page(start, followed.standing, home, notice), 422 if notice else 200

    def read(self, start: Step, trail: str, typed: str, home: Home | None) -> str | StepPage | DangerPage | EndPage:
        """The address that a typed reading leads to, or the page again with what is wrong with it."""
        known = self.known(home)
        standing = resume(self.site.library, start, trail, known).standing
        reading = figure(typed)
        if isinstance(standing.at, Step) and reading is not None:
            answer = answer_to(standing.at, reading, known)
            if answer is not None:
                return f"{base_of(home)}/help/{start.article}/{standing.trail_with(answer, reading)}"
        notice = f"We could not use “{typed}”. Please type the figure on the gauge, such as 1.2, or choose below."
        return self._page(start, standing, home, notice, typed)

    def arrival(self, start: Step, trail: str, home: Home | None) -> Arrival | None:
        """Where a trail ends; None where it does not end, or cannot be followed to its end."""
        standing = resume(self.site.library, start, trail, self.known(home)).standing
        if standing.trouble not in (None, Trouble.ANSWER_GONE) or not isinstance(standing.at, End):
            return None
        return self._arrival(start, standing.at, standing, home)

    def known(self, home: Home | None) -> Known:
        """What is known before anybody asks: the home's facts and its appliance's own limits."""
        return self.site.known(home) if home else NOTHING_KNOWN

    def _page(
        self, start: Step, standing: Standing, home: Home | None, notice: str, typed: str = ""
    ) -> DangerPage | StepPage | EndPage:
        around = frame(self.site, base_of(home))
        address = f"{around.base}/help/{start.article}"
        if isinstance(standing.at, End):
            return end_page(self.site, self._arrival(start, standing.at, standing, home), around, notice)
        danger = self.site.library.danger
        if danger is not None and standing.at.article == danger.id:
            return self._danger(start, standing, address, around, notice)
        return self._step(start, standing.at, standing, address, around, notice, typed, home)

    def _danger(self, start: Step, standing: Standing, address: str, around: Frame, notice: str) -> DangerPage:
        danger = self.site.library.articles[standing.at.article]
        return DangerPage(
            frame=around,
            title=danger.title,
            intro=danger.intro,
            about="" if start.article == danger.id else self._title(start),
            questions=tuple(
                Question(step.title, step.body, f"{address}/{standing.trail_with(step.answers[0])}")
                for step in danger.steps
                if step.audience is Audience.HOUSEHOLD and step.answers
            ),
            none_of_these=f"{address}/{'-'.join((none_of(self.site.library), *standing.ahead, *standing.held))}",
            alert=notice,
        )

    def _step(
        self,
        start: Step,
        step: Step,
        standing: Standing,
        address: str,
        around: Frame,
        notice: str,
        typed: str,
        home: Home | None,
    ) -> StepPage:
        known = self.known(home)
        own_words_of, own_words = self._own_words(step, home)
        last = standing.taken[-1] if standing.taken else None
        read = last.reading if last else None
        told = tuple(self._told(standing, address))
        return StepPage(
            frame=around,
            about=self._title(start),
            title=step.title,
            intro=self._intro(start, step),
            body=step.body,
            own_words=own_words,
            own_words_of=own_words_of,
            gauge=drawn_gauge(known.marks, read) if step.reading or read is not None else "",
            asks_reading=step.reading is not None,
            here=f"{address}/{standing.trail}",
            typed=typed,
            choices=tuple(
                Choice(
                    answer.text, f"{address}/{standing.trail_with(answer)}", with_figures(answer.bounds, known.marks)
                )
                for answer in step.answers
            ),
            told=told,
            # Nobody reads out that they said no to danger: the desk asks that again, and first.
            reference=reference(self.site.library, start, standing.trail, known) if len(told) > 1 else "",
            alert=notice,
        )

    def _arrival(self, start: Step, end: End, standing: Standing, home: Home | None) -> Arrival:
        address = f"{base_of(home)}/help/{start.article}"
        told = tuple(self._told(standing, address))
        return Arrival(self._title(start), start, end, standing, home, self.known(home), address, told)

    def _told(self, standing: Standing, address: str) -> Iterator[Told]:
        """The answers a person gave, each with the way back to its question."""
        danger = self.site.library.danger
        for place, taken in enumerate(standing.taken):
            if taken.by is By.FACT or not taken.written:
                continue
            before = standing.trail_before(place)
            change = f"{address}/{before}" if before else address
            if taken.by is By.NONE_OF_THESE and danger is not None:
                yield Told(danger.title, "None of these", change)
            else:
                reading = f" ({taken.reading:g} bar)" if taken.reading is not None else ""
                yield Told(taken.step.title, taken.answer.text + reading, change)

    def _title(self, start: Step) -> str:
        return self.site.library.articles[start.article].title

    def _intro(self, start: Step, step: Step) -> tuple[Block, ...]:
        """An article's own first words, with its first step only."""
        article = self.site.library.articles[step.article]
        return article.intro if step == article.first(Audience.HOUSEHOLD) and step.article == start.article else ()

    def _own_words(self, step: Step, home: Home | None) -> tuple[str, tuple[Block, ...]]:
        """What the appliance's own instructions say about the thing this step tries."""
        appliance = self.site.ranges.get(home.range) if home else None
        if home is None or appliance is None or step.limit is None:
            return "", ()
        match step.limit.action:
            case "reset":
                return home.appliance, appliance.reset
            case "top-up":
                return home.appliance, appliance.filling
        return "", ()
