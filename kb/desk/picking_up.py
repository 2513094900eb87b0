"""A household walked already and gives a reference, a link, or a text message: on which step does the desk go on?"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kb import keys
from kb.article import Audience
from kb.facts import NOTHING_KNOWN, Known
from kb.library import Library
from kb.reference import Heard, Slip, heard
from kb.walk import walk

_PIECE: Final = r"[a-z0-9]{3,4}(?:~[0-9.]{1,5})?"
_TRAIL: Final = rf"(?P<trail>{_PIECE}(?:-\s*{_PIECE}(?![a-z0-9]))*)"
_LINK: Final = re.compile(rf"(?:/h/(?P<key>[A-Za-z0-9-]{{15,40}}))?/help/(?P<article>[a-z0-9-]{{1,80}})(?:/{_TRAIL}?)?")
_BARE: Final = re.compile(rf"(?<![\w/-])(?:(?P<article>[a-z0-9-]{{1,80}})/)?{_TRAIL}(?![\w-])")
_CARD: Final = re.compile(r"(?<![\w-])[A-Za-z0-9]{5}-[A-Za-z0-9]{5}-[A-Za-z0-9]{5}(?![\w-])")
_WORD: Final = re.compile(r"[^\W_]+")
_LONGEST: Final = 2000
_SHORTEST_REFERENCE: Final = 7
_LONGEST_REFERENCE: Final = 48

LOOK_ALIKES: Final = {
    **dict.fromkeys("O0", "DQ"),
    **dict.fromkeys("I1", "T7J"),
    **dict.fromkeys("5S", "9"),
    **dict.fromkeys("8B", "3R"),
    **dict.fromkeys("G6", "C"),
    "L": "T7J",
    "V": "UWY",
    "Z": "27",
}
"""Characters that no reference has, and those of its own that they may be a misreading of (judgement)."""


@dataclass(frozen=True, slots=True)
class PickedUp:
    """What was picked up: the article, its trail, the home's key where it stands there, and what is wrong with it.

    `lost` counts the answers that nobody can read; those of the trail that no longer exist are told by following it.
    `title` is what an article was called that is no more.
    """

    article: str
    trail: str
    how: str
    key: str = ""
    slip: Slip | None = None
    lost: int = 0
    title: str = ""


def pick_up(library: Library, written: str, homes: Sequence[Known] = (), earlier: Iterable[Library] = ()) -> PickedUp:
    """What somebody read out or pasted stands for, wherever in the text it stands.

    A reference is tried with what is known of each home, and with nothing, and the reading that fits best is taken.
    """
    text = written.strip()[:_LONGEST]
    key = _key(text)
    link = _LINK.search(text)
    if link and link["article"] in library.articles:
        key = keys.tidy(link["key"] or "") or key
        return PickedUp(link["article"], _joined(link["trail"]), "link", key)
    best = _best(text, [*homes, NOTHING_KNOWN], library, earlier)
    if best.slip is Slip.MISTYPED and (found := _bare(library, text)):
        return PickedUp(*found, "link", key)
    if best.slip is Slip.MISTYPED and link:
        return PickedUp("", "", "link", key, Slip.NO_SUCH_ARTICLE)
    return PickedUp(best.article, best.trail, "reference", key, best.slip, best.lost, best.title)


def _best(text: str, homes: Sequence[Known], library: Library, earlier: Iterable[Library]) -> Heard:
    """The reference that is surest: one that fits to the last answer, else what looks like one from end to end."""
    said = [heard(library, text, known, earlier) for known in homes]
    whole = min(said, key=_doubt)
    if not _is_doubtful(whole):
        return whole
    for code in _codes(text):
        found = min((heard(library, code, known, earlier) for known in homes), key=_doubt)
        if not _is_doubtful(found):
            return found
    shaped = [heard(library, code, known, earlier) for code in _grouped(text) for known in homes]
    return min([whole, *shaped], key=_doubt)


def _codes(text: str) -> Iterator[str]:
    """Everything in a text that may be a reference: words that stand together and whose check holds.

    One character that no reference has may be one that looks like it, if the check says which.
    """
    words = [word.upper() for word in _WORD.findall(text)]
    seen: set[str] = set()
    for first in range(len(words)):
        code = ""
        for word in words[first:]:
            code += word
            strange = [sign for sign in code if sign not in keys.ALPHABET]
            if len(strange) > 1 or len(code) > _LONGEST_REFERENCE:
                break
            if len(code) >= _SHORTEST_REFERENCE and code not in seen:
                seen.add(code)
                yield from (
                    (code.replace(strange[0], each) for each in LOOK_ALIKES.get(strange[0], "")) if strange else (code,)
                )


def _grouped(text: str) -> Iterator[str]:
    """What stands in groups of four, as a reference is shown."""
    for found in re.finditer(r"(?<!\w)(?:\w{4}[\s-]+)+\w{1,4}(?!\w)", text):
        yield found[0]


def _bare(library: Library, text: str) -> tuple[str, str] | None:
    """A trail that stands without its address: the article that is named, or the one that it can be followed in."""
    for named, trail in dict.fromkeys((found["article"], _joined(found["trail"])) for found in _BARE.finditer(text)):
        if named in library.articles:
            return named, trail
        # One piece alone may be any short word.
        fitting = [article for article in library.articles if "-" in trail and _fits(library, article, trail)]
        if len(fitting) == 1:
            return fitting[0], trail
    return None


def _fits(library: Library, article: str, trail: str) -> bool:
    start = library.articles[article].first(Audience.HOUSEHOLD)
    if start is None:
        return False
    standing = walk(library, start, trail)
    return standing.trouble is None and any(each.step.article == article for each in standing.taken)


def _joined(trail: str | None) -> str:
    """A trail without the breaks that a line's end put into it."""
    return "".join((trail or "").split())


def _key(text: str) -> str:
    return next((key for found in _CARD.findall(text) if (key := keys.tidy(found))), "")


def _is_doubtful(each: Heard) -> bool:
    return each.slip not in (None, Slip.ANSWER_GONE) and not each.title


def _doubt(each: Heard) -> tuple[int, int]:
    order = (None, Slip.ANSWER_GONE, Slip.CHANGED, Slip.NO_SUCH_ARTICLE, Slip.MISTYPED)
    return order.index(each.slip), each.lost
