"""Do the figures of a handover record fit together, and what has the engineer to be asked or told?"""

from typing import Final

from kb.engineering.checks import CHECKS
from kb.engineering.record import Readings
from kb.engineering.remark import Level, Remark

_FIRST: Final = (Level.DANGER, Level.QUESTION, Level.FINE)


def remarks(readings: Readings) -> tuple[Remark, ...]:
    """Everything that the filled-in figures let one say, dangers first, with what is in order and its working.

    Nothing is said about a figure that lacks, and no figure is changed.
    """
    said = [remark for check in CHECKS for remark in check(readings)]
    told = {name for remark in said if _says_more(remark) for name in remark.figures}
    said = [remark for remark in said if remark.check != "possible" or told.isdisjoint(remark.figures)]
    return tuple(sorted(said, key=lambda remark: _FIRST.index(remark.level)))


def questions(readings: Readings) -> tuple[Remark, ...]:
    """The dangers and the questions alone, dangers first."""
    return tuple(remark for remark in remarks(readings) if remark.level is not Level.FINE)


def _says_more(remark: Remark) -> bool:
    """Whether a remark tells more of a figure than that it cannot be."""
    return remark.level is Level.DANGER or remark.check == "co-swapped"
