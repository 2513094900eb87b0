"""How do words that somebody typed become the inputs of a calculation, with every mistake told at once?"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from kb.engineering.calculation import Calculation, Choice, Figure, Result
from kb.engineering.span import CannotWork, Span

_NUMBER: Final = re.compile(r"\s*([+\-−]?(?:\d+\.?\d*|\.\d+))\s*([^\d.,\s].*?|)\s*", re.DOTALL)
_NONE: Final[Mapping[str, Span]] = MappingProxyType({})
_PLAIN: Final = str.maketrans({"³": "3", "²": "2", "₂": "2", "°": "", " ": "", "Ω": "ohm", "\u2126": "ohm"})


@dataclass(frozen=True, slots=True)
class Problem:
    """One mistake in what was typed: which input, what was expected, what was found, what to do next."""

    input: str
    expected: str
    found: str
    remedy: str

    def __str__(self) -> str:
        where = f"{self.input}: " if self.input else ""
        return f"{where}Expected {self.expected}, found {self.found}. {self.remedy}."


def read_figure(name: str, text: str, span: Span, others: Mapping[str, Span] = _NONE) -> float | Problem:
    """The number that was typed, with or without its unit, if the span holds it.

    `others` are the spans that another choice would bring, so that a unit of theirs can be told.
    """
    match = _NUMBER.fullmatch(text)
    if match is None:
        return Problem(
            name,
            f"a number in {span.unit}" if span.unit else "a number",
            repr(text),
            "Write figures with a point, such as 0.045",
        )
    number, unit = float(match[1].replace("−", "-")), match[2]
    if unit and not _same(unit, span.unit):
        instead = "".join(f", or choose {when}" for when, other in others.items() if _same(unit, other.unit))
        return Problem(name, f"a number in {span.unit or 'no unit'}", repr(text), f"Give it in that unit{instead}")
    if number not in span:
        return Problem(name, str(span), span.of(number), "Look at the unit and at the decimal point")
    return number


def ask(calculation: Calculation, typed: Mapping[str, str]) -> Result | tuple[Problem, ...]:
    """The result of a calculation for what was typed, or everything that is wrong with it; an empty text is none."""
    texts = {name: text.strip() for name, text in typed.items() if text.strip()}
    problems = [*_unknown(calculation, texts)]
    values: dict[str, float | str] = {}
    choices = _choices(calculation, texts)
    for name, chosen in [*choices.items(), *_figures(calculation, texts, choices)]:
        if isinstance(chosen, Problem):
            problems.append(chosen)
        else:
            values[name.replace("-", "_")] = chosen
    if problems:
        return tuple(problems)
    try:
        return calculation.answer(**values)
    except CannotWork as cannot:
        return (Problem("", cannot.expected, cannot.found, cannot.remedy),)


def _unknown(calculation: Calculation, texts: Mapping[str, str]) -> Iterator[Problem]:
    names = [each.name for each in calculation.inputs]
    for name in texts:
        if name not in names:
            yield Problem(name, f"one of {', '.join(names)}", name, "Use the name of an input")


def _choices(calculation: Calculation, texts: Mapping[str, str]) -> dict[str, str | Problem]:
    return {
        each.name: _choice(each, texts.get(each.name, each.usual))
        for each in calculation.inputs
        if isinstance(each, Choice)
    }


def _choice(asked: Choice, text: str) -> str | Problem:
    if text in asked.options:
        return text
    return Problem(asked.name, f"one of {', '.join(asked.options)}", repr(text), "Choose one of them")


def _figures(
    calculation: Calculation, texts: Mapping[str, str], choices: Mapping[str, str | Problem]
) -> Iterator[tuple[str, float | Problem]]:
    chosen = {name: choice for name, choice in choices.items() if isinstance(choice, str)}
    for each in calculation.inputs:
        if isinstance(each, Figure):
            span = each.span_for(chosen)
            if each.name in texts:
                yield each.name, read_figure(each.name, texts[each.name], span, each.spans)
            elif each.required:
                yield each.name, Problem(each.name, f"{each.label}, {span}", "nothing", f"Give {each.name}")


def _same(typed: str, unit: str) -> bool:
    return _plain(typed) in (_plain(unit), _plain(unit.partition(" ")[0]))


def _plain(unit: str) -> str:
    return unit.translate(_PLAIN).casefold()
