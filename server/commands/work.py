"""`tundish work`: one engineering calculation, with the lines that show how."""

from collections.abc import Iterator, Sequence
from typing import Annotated

import typer

from kb.engineering.asking import Problem, ask
from kb.engineering.calculation import Calculation, Choice, Figure, Input, Result
from kb.engineering.calculations import CALCULATIONS
from kb.engineering.manual import pages
from kb.engineering.span import figure
from server.commands.console import fail

AS_TYPED = {"allow_extra_args": True, "ignore_unknown_options": True, "allow_interspersed_args": False}
"""The settings of a command whose options are the calculation's own inputs."""


def work(
    context: typer.Context,
    calculation: Annotated[str | None, typer.Argument(help="The name of a calculation; none lists them.")] = None,
) -> None:
    """Work something out: tundish work gas-rate --volume 0.045 --seconds 60, or volume=0.045 seconds=60."""
    if calculation is None:
        typer.echo("\n".join(listed()))
        return
    found = CALCULATIONS.get(calculation)
    if found is None:
        fail(f"Expected a calculation, found {calculation!r}. There are {', '.join(CALCULATIONS)}.")
    if not context.args or context.args == ["--help"]:
        typer.echo("\n".join(explained(found)))
        return
    typed = typed_inputs(context.args)
    if isinstance(typed, Problem):
        fail(typed)
    result = ask(found, typed)
    if not isinstance(result, Result):
        fail("\n".join(map(str, result)))
    typer.echo("\n".join(shown(result)))


def typed_inputs(words: Sequence[str]) -> dict[str, str] | Problem:
    """What was typed for each input, as `--name value`, `--name=value` or `name=value`."""
    typed: dict[str, str] = {}
    rest = iter(words)
    for word in rest:
        name, equals, value = word.removeprefix("--").partition("=")
        if not equals:
            value = next(rest, "") if word.startswith("--") else ""
        if not value:
            return Problem(name, "an input and its figure", repr(word), "Write it as volume=0.045 or --volume 0.045")
        if name in typed:
            return Problem(name, "one figure for an input", f"{typed[name]!r} and {value!r}", "Leave one out")
        typed[name] = value
    return typed


def listed() -> Iterator[str]:
    """A line for every calculation."""
    width = max(map(len, CALCULATIONS))
    for name, each in CALCULATIONS.items():
        yield f"{name:{width}}  {each.question}"


def shown(result: Result) -> Iterator[str]:
    """What came out, then how, then what to know."""
    width = max(len(output.label) for output in result.outputs)
    for output in result.outputs:
        yield f"{output.label:{width}}  {output}"
    yield from ("", *result.working)
    if result.notes:
        yield from ("", *result.notes)


def explained(calculation: Calculation) -> Iterator[str]:
    """The manual of a calculation: what it asks for, and every formula with its range, errors and source."""
    yield f"{calculation.title}. {calculation.question}"
    yield ""
    width = max(len(each.name) for each in calculation.inputs)
    for each in calculation.inputs:
        yield f"  --{each.name:{width}}  {_asked(each)}"
    for page in pages(calculation):
        yield from ("", page.says, f"  Formula: {page.formula}", f"  Units: {page.units}", f"  Range: {page.range}")
        yield from (f"  Errors: {page.errors}", f"  Source: {page.source}")


def _asked(asked: Input) -> str:
    if isinstance(asked, Choice):
        return f"{asked.label}: {' | '.join(asked.options)} (usually {asked.usual})"
    others = "".join(f"; {span} with {when}" for when, span in asked.spans.items())
    return " ".join(filter(None, (f"{asked.label}, {asked.span}{others}{_lacking(asked)}.", asked.help)))


def _lacking(asked: Figure) -> str:
    if asked.usual is not None:
        return f" (usually {figure(asked.usual)})"
    return "" if asked.required else " (may be left out)"
