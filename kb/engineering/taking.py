"""How does what was typed into a handover record become its readings?"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from kb.engineering.asking import Problem, read_figure
from kb.engineering.record import BOUNDS, Readings, bounds
from kb.engineering.span import Span

KINDS: Final = ("fuel", "meter")
"""The readings that are words."""

_ANY: Final = 1e12


def take(typed: Mapping[str, str]) -> tuple[Readings, tuple[Problem, ...]]:
    """The readings that were typed, by the names of `Readings`, and what could not be read as a number.

    A number that cannot be is still taken: whether it fits is asked by `plausible`, and nothing is lost.
    An empty text is a figure not yet written; names that are no reading are left alone.
    """
    texts = {name: text.strip() for name, text in typed.items() if text.strip()}
    kinds: dict[str, Any] = {name: texts[name] for name in KINDS if name in texts}
    empty = Readings(**kinds)
    read = {
        name: read_figure(name, text, Span(-_ANY, _ANY, bounds(empty, name).possible.unit))
        for name, text in texts.items()
        if name in BOUNDS
    }
    figures: dict[str, Any] = {name: value for name, value in read.items() if not isinstance(value, Problem)}
    return replace(empty, **figures), tuple(value for value in read.values() if isinstance(value, Problem))
