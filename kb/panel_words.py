"""Which of a panel's messages did somebody mean who typed some of its words, in any order and spelling?"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from typing import Final

from rapidfuzz.distance import OSA

from kb.appliance import Code


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


_WORD: Final = re.compile(r"[^\W\d_]+|\d+(?:[.,]\d+)?")
_SAYS_NOTHING: Final = _set(
    "the a an it its is was has and or at on in to of for my our this that says say said shows show reads screen "
    "display panel message boiler code error fault sign words with"
)
_SHORTEST_PART: Final = 4
_OF_WHAT_IS_TYPED: Final = 2 / 3
_AS_GOOD_AS_THE_BEST: Final = 0.85
_MOST: Final = 6


def messages(typed: str, codes: Sequence[Code]) -> Iterator[tuple[Code, bool]]:
    """Every code whose words on the panel may be meant, the likeliest first, and whether they are the very same."""
    words = _words(typed)
    if not any(len(word) > 2 and word.isalpha() for word in words):
        return
    panels = [_words(code.says) for code in codes]
    rarity = Counter(word for panel in panels for word in set(panel))
    scores = [
        (_score(words, panel, rarity), code, sorted(words) == sorted(panel))
        for code, panel in zip(codes, panels, strict=True)
    ]
    best = max((score for score, _, _ in scores), default=0.0)
    near = [each for each in scores if each[0] > 0 and each[0] >= _AS_GOOD_AS_THE_BEST * best]
    for _, code, same in sorted(near, key=lambda each: -each[0])[:_MOST]:
        yield code, same


def _words(text: str) -> list[str]:
    found = [word.casefold() for word in _WORD.findall(text)]
    return [word for word in found if word not in _SAYS_NOTHING] or found


def _score(words: Sequence[str], panel: Sequence[str], rarity: Counter[str]) -> float:
    """How much of what was typed is on the panel, and how much of the panel was typed; rare words weigh more."""
    typed = sum(any(_alike(word, other) for other in panel) for word in words) / len(words)
    if typed < _OF_WHAT_IS_TYPED:
        return 0.0
    weight = {other: 1 / rarity[other] for other in panel}
    met = sum(weight[other] for other in weight if any(_alike(word, other) for word in words))
    return typed * (1 + met / sum(weight.values())) / 2


def _alike(word: str, other: str) -> bool:
    if word == other:
        return True
    if not (word.isalpha() and other.isalpha()) or min(len(word), len(other)) < _SHORTEST_PART:
        return False
    if other.startswith(word):
        return True
    slips = 2 if min(len(word), len(other)) >= 7 else 1
    return OSA.distance(word, other, score_cutoff=slips) <= slips
