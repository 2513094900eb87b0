"""Which faults stand on a home's card, and which of their lines are true for this home?"""

from collections.abc import Iterator, Mapping
from typing import Final

from kb.article import Article, Audience
from kb.card import words
from kb.card.value import Fault
from kb.facts import Known
from kb.library import Library
from kb.prose import words as plain

MOST: Final = 4
"""How many faults a card has room for."""

LINES: Final = (2, 3)
"""How few lines still help, and how many a fault may have at most."""


def faults_of(library: Library, known: Known) -> tuple[Fault, ...]:
    """The commonest faults that this home can have, each in its article's own lines.

    The emergencies are left out: they have the front of the card.
    """
    return tuple(_suiting(library, known))[:MOST]


def _suiting(library: Library, known: Known) -> Iterator[Fault]:
    for article in library.faults():
        if article.header.emergency or not article.suits(known.facts) or _foreign(article.title, known):
            continue
        written = (plain(line) for block in article.card for line in block.lines)
        lines = _once([line for line in written if _true_here(line, article, known)])
        if len(lines) >= LINES[0]:
            yield Fault(article.id, article.title, lines)


def _once(lines: list[str]) -> tuple[str, ...]:
    """As many lines as a fault may have, without the general rule about resets if enough are left."""
    others = [line for line in lines if not words.REPEATS.search(line)]
    return tuple(others if len(others) >= LINES[0] else lines)[: LINES[1]]


def _true_here(line: str, article: Article, known: Known) -> bool:
    """Whether a line speaks of nothing this home lacks, and allows nothing its appliance does not."""
    if _foreign(line, known):
        return False
    if known.facts.get("fuel") == "oil" and words.NAMES_OIL.search(line):
        return True
    allowed = words.FORBIDS.sub("", line)
    stricter = (action for action, at_most in known.limits.items() if at_most < _usual(article, action))
    return not any(words.MENTIONS[action].search(allowed) for action in stricter)


def _foreign(text: str, known: Known) -> bool:
    """Whether a text speaks of what a home with these facts does not have."""
    lacking = (words.FOREIGN.get(fact) for fact in known.facts.items())
    return any(foreign.search(text) for foreign in lacking if foreign)


def _usual(article: Article, action: str) -> int:
    """How often the article lets a household try something; a line may speak of what only another has a step for."""
    limits = [step.limit for step in article.steps if step.audience is Audience.HOUSEHOLD]
    own = [limit.at_most for limit in limits if limit and limit.action == action]
    return max(own, default=USUAL.get(action, 1))


USUAL: Final[Mapping[str, int]] = {"reset": 2, "thaw": 2}
"""How often people are told they may try something where nothing else is said; everything else once."""
