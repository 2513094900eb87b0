"""What does the manual page of a formula say: its formula, units, range, errors and source?

The page is the docstring of the function that computes, so that what is shown is what is done.
"""

import re
from dataclasses import dataclass
from inspect import cleandoc
from typing import Final

from kb.engineering.calculation import Calculation, Method

HEADS: Final = ("Formula", "Units", "Range", "Errors", "Source")

_STARTS: Final = re.compile(rf"^(?=(?:{'|'.join(HEADS)}):)", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Page:
    """The manual page of one formula."""

    says: str
    formula: str
    units: str
    range: str
    errors: str
    source: str


def page(method: Method) -> Page:
    """The manual page of a function.

    Raises KeyError for a function whose docstring lacks a part, which a test refuses.
    """
    text = cleandoc(method.__doc__ or "")
    parts = dict(_part(paragraph) for paragraph in _STARTS.split(text))
    return Page(text.partition("\n")[0], *(parts[head] for head in HEADS))


def _part(text: str) -> tuple[str, str]:
    """The head of a part and what it says, on as many lines as it likes."""
    head, _, rest = text.partition(":")
    return head, " ".join(rest.split())


def pages(calculation: Calculation) -> tuple[Page, ...]:
    """The manual pages of everything that a calculation stands on."""
    return tuple(page(method) for method in calculation.methods)
