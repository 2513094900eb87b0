"""A household walked already and gives a reference, a trail or a link: on which step does the desk go on?"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from kb import keys
from kb.facts import NOTHING_KNOWN, Known
from kb.library import Library
from kb.reference import Heard, Slip, heard

_LINK: Final = re.compile(
    r"(?:/h/(?P<key>[A-Za-z0-9-]{15,40}))?/help/(?P<article>[a-z0-9-]{1,80})(?:/(?P<trail>[a-z0-9~.-]*))?"
)
_LONGEST: Final = 2000


@dataclass(frozen=True, slots=True)
class PickedUp:
    """What was picked up: the article, its trail, the home's key where the link has one, and what is wrong with it.

    `lost` counts the answers that no longer exist; a link's own are told when it is followed.
    """

    article: str
    trail: str
    how: str
    key: str = ""
    slip: Slip | None = None
    lost: int = 0


def pick_up(library: Library, written: str, homes: Sequence[Known] = ()) -> PickedUp:
    """What somebody read out or pasted stands for.

    A reference is tried with what is known of each home, and with nothing, and the reading that fits best is taken.
    """
    text = written.strip()[:_LONGEST]
    link = _LINK.search(text)
    if link and link["article"] in library.articles:
        key = keys.tidy(link["key"] or "") or ""
        return PickedUp(link["article"], (link["trail"] or "").strip("-"), "link", key)
    if link:
        return PickedUp("", "", "link", slip=Slip.NO_SUCH_ARTICLE)
    best = _best(heard(library, text, known) for known in (*homes, NOTHING_KNOWN))
    return PickedUp(best.article, best.trail, "reference", slip=best.slip, lost=best.lost)


def _best(found: Iterable[Heard]) -> Heard:
    return min(found, key=_doubt)


def _doubt(each: Heard) -> tuple[int, int]:
    order = (None, Slip.CHANGED, Slip.ANSWER_GONE, Slip.NO_SUCH_ARTICLE, Slip.MISTYPED)
    return order.index(each.slip), each.lost
