"""A walk at a terminal, for an author to hear the questions."""

from collections.abc import Callable, Iterator

from kb.article import Answer, Audience, End, Step
from kb.facts import NOTHING_KNOWN
from kb.guide import answer_to
from kb.library import Library
from kb.prose import Block, Shape, words
from kb.walk import walk


def ask_through(
    library: Library, start: Step, audience: Audience, say: Callable[[str], object], ask: Callable[[str], str]
) -> None:
    """Ask question after question from the danger questions on, until an end."""
    trail = ""
    while True:
        standing = walk(library, start, trail, audience=audience)
        if isinstance(standing.at, End):
            _tell_end(standing.at, say)
            for passage in library.passages(standing.at, standing.facts):
                say(f"\n{passage.title}")
                for line in _lines(passage.body):
                    say(line)
            return
        _tell_step(standing.at, say)
        trail = standing.trail_with(*_choose(standing.at, say, ask))


def _choose(step: Step, say: Callable[[str], object], ask: Callable[[str], str]) -> tuple[Answer, float | None]:
    while True:
        typed = ask("Answer")
        if typed.isascii() and typed.isdigit() and 1 <= int(typed) <= len(step.answers):
            return step.answers[int(typed) - 1], None
        try:
            reading = float(typed)
        except ValueError:
            reading = -1.0
        answer = answer_to(step, reading, NOTHING_KNOWN)
        if answer is not None:
            return answer, reading
        say(f"Type a number from 1 to {len(step.answers)}{', or the figure with a point' if step.reading else ''}.")


def _tell_step(step: Step, say: Callable[[str], object]) -> None:
    say(f"\n{step.title}")
    for line in _lines(step.body):
        say(line)
    for number, answer in enumerate(step.answers, 1):
        say(f"  {number}. {answer.text}")


def _tell_end(end: End, say: Callable[[str], object]) -> None:
    say(f"\n== {end.title} ==\nHow soon: {end.pace}. Whom to call: {end.call}.")
    for line in _lines(end.body):
        say(line)


def _lines(blocks: tuple[Block, ...]) -> Iterator[str]:
    for block in blocks:
        for number, line in enumerate(block.lines, 1):
            match block.shape:
                case Shape.BULLETS:
                    yield f"  - {words(line)}"
                case Shape.NUMBERS:
                    yield f"  {number}) {words(line)}"
                case Shape.CAUTION:
                    yield f"  ! {words(line)}"
                case _:
                    yield words(line)
