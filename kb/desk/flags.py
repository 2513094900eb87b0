"""What changes for a caller who is not at the boiler, can't climb or kneel, rents, or can't hear?"""

import re
from collections.abc import Collection, Iterator
from typing import Final

from kb.article import Audience, Passage, Step
from kb.library import Library
from kb.prose import Target

PASSAGES: Final = {
    "not-there": Target("waiting", "if-you-are-not-at-the-home"),
    "tenant": Target("waiting", "if-you-rent"),
    "text-only": Target("waiting", "if-you-cannot-hear-well-on-the-phone"),
}
"""The words that belong to a caller like this, read aloud."""

ARTICLES: Final = {
    "not-there": "help-somebody-elses-home",
    "tenant": "who-repairs-when-you-rent",
    "text-only": "ring-without-hearing",
}
"""The article that says more."""

_STRAIN: Final = re.compile(
    r"\b(?:climb|kneel|ladder|loft|stairs|crouch|bend down|lie down|behind|under the boiler|just under it|"
    r"outside pipe|outside wall|from the ground|both ends of each|low down|high up|on a chair|lift)\b",
    re.IGNORECASE,
)


def passages(library: Library, flags: Collection[str]) -> tuple[Passage, ...]:
    """What to read aloud to this caller, whatever the fault is."""
    wanted = (PASSAGES[flag] for flag in sorted(flags) if flag in PASSAGES)
    found = (library.passage(target, Audience.HOUSEHOLD) for target in wanted)
    return tuple(passage for passage in found if passage)


def articles(library: Library, flags: Collection[str]) -> tuple[str, ...]:
    """The articles that say more to this caller, of those there are."""
    return tuple(ARTICLES[flag] for flag in sorted(flags) if ARTICLES.get(flag) in library.articles)


def out_of_reach(step: Step, flags: Collection[str]) -> str:
    """Why this caller should not be asked to do this step; empty where nothing speaks against it."""
    return next(_reasons(step, flags), "")


def _reasons(step: Step, flags: Collection[str]) -> Iterator[str]:
    if "not-there" in flags and _is_done(step):
        yield "They are not at the boiler."
    if "no-climbing" in flags and _STRAIN.search(" ".join([step.title, *(block.text for block in step.body)])):
        yield "It may mean climbing, kneeling or reaching."
    if "text-only" in flags and step.limit is not None:
        yield "Nobody can stop them in time by text."


def _is_done(step: Step) -> bool:
    """Whether a step wants something done or read off, and not only remembered."""
    return step.limit is not None or step.reading is not None or not step.title.endswith("?")
