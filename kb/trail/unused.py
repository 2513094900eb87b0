"""What is said of an answer that the walk of now does not take?"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby


@dataclass(frozen=True, slots=True)
class Unused:
    """An answer that is not taken: its place in the trail, its words as far as they are known, what it came after.

    `counts` says that it was a try at something limited, `danger` that it was the no to all danger questions at once,
    `perhaps` that a question further on may be its own, which has moved to another article.
    """

    number: int
    question: str = ""
    answer: str = ""
    after: str = ""
    counts: bool = False
    danger: bool = False
    perhaps: bool = False


def gone_words(gone: Sequence[Unused]) -> tuple[str, ...]:
    """What is to be said of answers that no longer exist, one sentence for those of which the same is known."""
    return tuple(_sentence(list(those), *key) for key, those in groupby(gone, _alike))


def unmet_words(waiting: Sequence[Unused]) -> tuple[str, ...]:
    """What is to be said of answers whose question never came up."""
    return tuple(f"“{each.answer}” to “{each.question}” is not asked any more." for each in waiting if each.question)


def _alike(gone: Unused) -> tuple[str, str, str, bool, bool]:
    # Answers whose words are known are told one by one.
    return (gone.question, gone.answer, "" if gone.question else gone.after, gone.counts, gone.danger)


def _sentence(those: Sequence[Unused], question: str, answer: str, after: str, counts: bool, danger: bool) -> str:
    if danger:
        return "The danger questions have changed since then."
    if question:
        still = " It still counts as a try." if counts else ""
        return f"“{answer}” to “{question}” is no longer in our guidance.{still}"
    number, are = ("One answer", "is") if len(those) == 1 else (f"{len(those)} answers", "are")
    where = f", given after “{after}”," if after else ", given at the beginning,"
    return f"{number}{where} {are} no longer in our guidance."
