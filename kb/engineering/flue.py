"""How long is a flue for the fan, counting its bends?"""

from typing import Final

from kb.engineering.span import Span, within

LENGTH: Final = Span(0, 60, "m")
BENDS: Final = Span(0, 20, "bends")
BEND: Final = Span(0, 5, "m")


def equivalent_length(straight: float, bends_90: float, each_90: float, bends_45: float, each_45: float) -> float:
    """The straight length that resists as much as a flue with its bends.

    Formula: length = straight + bends of 90° × what one counts + bends of 45° × what one counts.
    Units: m, and numbers of bends.
    Range: 0 to 60 m, up to 20 bends of each kind.
    Errors: none of its own; what a bend counts, and which bends count, is the maker's to say.
    Source: the usual method of makers' instructions (common practice).
    """
    return (
        within("a straight length", straight, LENGTH)
        + within("a number of 90° bends", bends_90, BENDS) * within("the length of a 90° bend", each_90, BEND)
        + within("a number of 45° bends", bends_45, BENDS) * within("the length of a 45° bend", each_45, BEND)
    )
