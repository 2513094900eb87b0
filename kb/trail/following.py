"""How is a trail followed whose library has changed since, or whose home is known better?"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

from kb.article import Audience, Step
from kb.facts import NOTHING_KNOWN, Known
from kb.guide import Attempt, Guide, Taken, Trouble, none_of
from kb.library import Library
from kb.trail.pieces import Piece, answer_of, read, written_in
from kb.trail.unused import Unused
from kb.walk import Standing, walk

CHANGED: Final = (Trouble.ANSWER_GONE, Trouble.READING_ELSEWHERE)
"""The troubles of a trail that a person did walk."""


@dataclass(frozen=True, slots=True)
class Followed:
    """Where a trail leads by now, and what became of each of its pieces.

    `places` says for each answer taken which piece it was, or -1.
    `waiting` are the pieces whose question the walk has not come to, `passed` those whose answer is known by now,
    `again` the counts that must be asked for once more, since a try may be among what is gone.
    `staying` are those to hold ready further on, which wait or are tries that count.
    """

    standing: Standing
    pieces: tuple[str, ...]
    places: tuple[int, ...]
    waiting: tuple[Unused, ...] = ()
    passed: tuple[int, ...] = ()
    again: tuple[int, ...] = ()
    gone: tuple[Unused, ...] = ()
    staying: tuple[int, ...] = ()
    attempts: tuple[Attempt, ...] = ()

    @property
    def trail(self) -> str:
        """The trail that leads exactly here, with what is held ready."""
        return self.standing.trail


def resume(library: Library, start: Step, trail: str, known: Known = NOTHING_KNOWN) -> Followed:
    """Where a household's trail leads: as it was walked, or else as far as it can be with the library of now."""
    pieces, standing = tuple(trail.split("-")), walk(library, start, trail, known)
    if standing.trouble in CHANGED:
        return follow_trail(library, start, pieces, known)
    return Followed(standing, pieces, ())


def follow_trail(
    library: Library,
    start: Step,
    pieces: Sequence[str],
    known: Known = NOTHING_KNOWN,
    earlier: Iterable[Library] = (),
) -> Followed:
    """Follow a household's pieces from the danger questions on, as far as there are answers to what is asked.

    `earlier` are libraries of before, the newest first, for the words of what is gone; they are looked at only then.
    """
    guide, found = Guide(library, known, Audience.HOUSEHOLD), read(library, start, pieces, earlier)
    run = _Run(guide, start, found)
    last = max((each.number for each in run.left.values() if each.unknown), default=-1)
    again = [each for each in found if each.counts and each.number < last]
    if again:
        # What is gone may have been a try, so whoever counted before it counts once more.
        run = _Run(guide, start, [each for each in found if each not in again])
    return run.told(tuple(pieces), tuple(each.number for each in again))


class _Run:
    """One walk, with the pieces that nobody has taken yet."""

    def __init__(self, guide: Guide, start: Step, pieces: Sequence[Piece]) -> None:
        self.guide, self.start = guide, start
        self.left = {each.number: each for each in pieces}
        self.taken: list[Taken] = []
        self.where: list[int] = []
        self.state = guide.begin(start, self.taken)
        self._note(-1)
        while self._take() or self._pass_on():
            pass

    def told(self, pieces: tuple[str, ...], again: tuple[int, ...]) -> Followed:
        """What became of everything."""
        passed = {number for number, each in self.left.items() if self._is_known(each)}
        gone = {number for number, each in self.left.items() if number not in passed and self._is_gone(each)}
        unused = {number: self._unused(each) for number, each in self.left.items() if number not in passed}
        without = tuple(each for number, each in unused.items() if number in gone)
        waiting = tuple(each for number, each in unused.items() if number not in gone)
        stays = sorted(each.number for each in unused.values() if each.counts or each in waiting)
        # What may have moved stands in front, so that no count which is asked for after it is asked for again.
        ahead = tuple(pieces[each.number] for each in without if each.perhaps)
        trouble = Trouble.ANSWER_GONE if gone else None
        return Followed(
            Standing(
                self.state.at,
                tuple(self.taken),
                self.state.facts,
                trouble,
                ahead,
                tuple(pieces[each] for each in stays),
            ),
            pieces,
            tuple(self.where),
            waiting,
            tuple(sorted(passed)),
            again,
            without,
            tuple(stays),
            tuple(each.attempt for each in self.left.values() if each.attempt),
        )

    def _take(self) -> bool:
        for piece in self.left.values():
            for written in (piece.written, *self._moved(piece)):
                following = self.guide.follow(self.state, written, self.taken)
                if not isinstance(following, Trouble):
                    self.state = following
                    del self.left[piece.number]
                    self._note(piece.number)
                    return True
        return False

    def _pass_on(self) -> bool:
        """Before anybody is asked: pass a limit by that was used up off this walk."""
        attempts = [each.attempt for each in self.left.values() if each.attempt]
        settled = replace(self.guide, attempts=attempts).settle(self.state, self.taken)
        moved = settled is not self.state
        self.state = settled
        self._note(-1)
        return moved

    def _moved(self, piece: Piece) -> Iterator[str]:
        """The piece as it is written now, where its step stands in another article than it did."""
        at = self.state.at
        if piece.steps or not isinstance(at, Step) or self.guide.at_danger(self.state):
            return
        # Nothing but its name says from where a step came: an article that this walk has been in.
        articles = {self.start.article, *(taken.step.article for taken in self.taken)} - {at.article}
        for answer in at.answers:
            known = piece.moved == at and any(was.text == answer.text for _, was in piece.before)
            if known or any(written_in(each, at, answer) == piece.token for each in articles):
                yield piece.written.replace(piece.token, answer.token, 1)

    def _note(self, number: int) -> None:
        self.where += [number] * (len(self.taken) - len(self.where))

    def _is_known(self, piece: Piece) -> bool:
        return any(step.fact in self.state.facts for step in piece.steps if step.fact)

    def _is_gone(self, piece: Piece) -> bool:
        """Whether no question has such an answer, or the one that waits no longer takes its figure."""
        return not piece.live or any(step == self.state.at for step in piece.steps)

    def _unused(self, piece: Piece) -> Unused:
        titles = dict(zip(self.where, (taken.step.title for taken in self.taken), strict=True))
        after = max((number for number in titles if 0 <= number < piece.number), default=-1)
        then = piece.before or tuple((step, answer_of(step, piece.token)) for step in piece.steps)
        told = next(iter(then)) if len(then) == 1 else None
        return Unused(
            piece.number,
            told[0].title if told else "",
            told[1].text if told else "",
            titles.get(after, ""),
            piece.attempt is not None,
            not piece.steps and len(piece.token) == len(none_of(self.guide.library)),
            piece.perhaps,
        )
