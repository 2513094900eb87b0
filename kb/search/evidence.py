"""How strongly does what was read speak for each fault, and for which dangers?"""

from collections import defaultdict
from collections.abc import Mapping
from typing import Final

from kb.search.found import DANGERS
from kb.search.reader import Reading
from kb.search.vocabulary import Vocabulary

SPREAD: Final = 0.8
"""What is left of a sign's points when its concepts stand in different clauses."""


def points(reading: Reading, vocabulary: Vocabulary) -> Mapping[str, float]:
    """The points of every category that anything speaks for, dangers included."""
    found: defaultdict[str, float] = defaultdict(float)
    for sign in vocabulary.signs:
        if not sign.together <= reading.whole:
            continue
        if any(sign.holds(clause) for clause in reading.clauses):
            found[sign.target] += sign.points
        elif sign.holds(reading.whole):
            found[sign.target] += sign.points * SPREAD
    for sign in vocabulary.dangers:
        if any(sign.holds(breath) for breath in reading.breaths):
            found[sign.target] += sign.points
    return found


def dangers(reading: Reading, vocabulary: Vocabulary) -> tuple[str, ...]:
    """Every danger that the words may mean, the most pressing first; a single sign is enough."""
    shown = {sign.target for sign in vocabulary.dangers if any(sign.holds(breath) for breath in reading.breaths)}
    return tuple(danger for danger in DANGERS if danger in shown)


def is_elsewhere(reading: Reading, vocabulary: Vocabulary) -> bool:
    """Whether the words are about something that is none of ours, and name nothing that is."""
    return bool(vocabulary.elsewhere & reading.whole) and not vocabulary.ours & reading.whole
