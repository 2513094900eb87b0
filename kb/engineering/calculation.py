"""What is a calculation: its named inputs, the figures it gives, and the lines that show how?"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, Final, TypeAlias

from kb.engineering.span import CannotWork, Span, figure, within


@dataclass(frozen=True, slots=True)
class Figure:
    """A number that a calculation asks for.

    `usual` stands in when nothing is given; without it the figure is asked for, unless it `may_lack`.
    `spans` holds another span for a choice, written as `meter=imperial`.
    """

    name: str
    label: str
    span: Span
    help: str = ""
    usual: float | None = None
    may_lack: bool = False
    spans: Mapping[str, Span] = field(default_factory=dict)

    @property
    def required(self) -> bool:
        """Whether nothing can be worked out without it."""
        return self.usual is None and not self.may_lack

    def span_for(self, choices: Mapping[str, str]) -> Span:
        """The span that holds after these choices."""
        chosen = {f"{name}={value}" for name, value in choices.items()}
        return next((span for when, span in self.spans.items() if when in chosen), self.span)


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few that a calculation asks for: each option's name and its plain words."""

    name: str
    label: str
    options: Mapping[str, str]
    usual: str
    help: str = ""


Input: TypeAlias = Figure | Choice


@dataclass(frozen=True, slots=True)
class Output:
    """A figure that came out, with its unit; `digits` are the significant ones to show."""

    name: str
    label: str
    value: float
    unit: str
    digits: int = 3

    def __str__(self) -> str:
        return f"{figure(self.value, self.digits)} {self.unit}".strip()


@dataclass(frozen=True, slots=True)
class Result:
    """What came out, the lines that show how, and what to know about it."""

    outputs: tuple[Output, ...]
    working: tuple[str, ...]
    notes: tuple[str, ...] = ()

    def __getitem__(self, name: str) -> float:
        """The value of an output by its name."""
        return next(output.value for output in self.outputs if output.name == name)


@dataclass(frozen=True, slots=True)
class Given:
    """The inputs of one run: figures and choices by name, a figure that lacks being absent."""

    figures: Mapping[str, float]
    choices: Mapping[str, str] = field(default_factory=dict)

    def __getitem__(self, name: str) -> float:
        """A figure that must be there."""
        return self.figures[name]

    def get(self, name: str) -> float | None:
        """A figure that may lack."""
        return self.figures.get(name)

    def choice(self, name: str) -> str:
        """What was chosen."""
        return self.choices[name]


Method: TypeAlias = Callable[..., Any]


@dataclass(frozen=True, slots=True)
class Calculation:
    """One calculation, complete: a page or a command can show it without knowing which it is.

    `methods` are the functions it stands on; their docstrings are its manual.
    """

    name: str
    title: str
    question: str
    inputs: tuple[Input, ...]
    work: Callable[[Given], Result]
    methods: tuple[Method, ...]

    def answer(self, **values: float | str | None) -> Result:
        """The result for figures and choices by name, a hyphen written as an underscore, `return` as `return_`.

        What is None is taken as not given.
        Raises CannotWork.
        """
        named = {name.strip("_").replace("_", "-"): value for name, value in values.items() if value is not None}
        choices = {each.name: str(named.get(each.name, each.usual)) for each in self.inputs if isinstance(each, Choice)}
        figures = [each for each in self.inputs if isinstance(each, Figure)]
        chosen = {each.name: _figure(each, named.get(each.name, each.usual), choices) for each in figures}
        return self.work(Given({name: value for name, value in chosen.items() if value is not None}, choices))


FUEL: Final = Choice(
    "fuel",
    "Fuel",
    MappingProxyType({"natural-gas": "natural gas", "lpg": "LPG (propane)"}),
    "natural-gas",
)
"""The choice of fuel, with the names that facts of a home use."""


def _figure(asked: Figure, value: float | str | None, choices: Mapping[str, str]) -> float | None:
    if value is not None:
        return within(asked.label, float(value), asked.span_for(choices))
    if asked.required:
        raise CannotWork(f"a figure for {asked.label}", "none", f"Give {asked.name}")
    return None
