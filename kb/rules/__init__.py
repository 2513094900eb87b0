"""Which rules are articles held to, and what does each say of a library?

A rule is one module of this package: its docstring is its manual page, samples included, and its `check`, if it
has one, looks at the whole library.
A rule without a `check` names findings that come from the reading of the files.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from importlib import import_module
from inspect import cleandoc
from pkgutil import iter_modules
from types import MappingProxyType
from typing import TypeAlias

from kb.findings import Finding, in_order
from kb.library import Library

Check: TypeAlias = Callable[[Library, date], Iterator[Finding]]


@dataclass(frozen=True, slots=True)
class Rule:
    """One rule: its name, its manual page, its check if it has one, and whether its findings hold an article back."""

    name: str
    page: str
    check: Check | None
    holds_back: bool


@cache
def rules() -> Mapping[str, Rule]:
    """Every rule by name, as the modules of this package declare them."""
    names = sorted(module.name for module in iter_modules(__path__) if not module.name.startswith("_"))
    return MappingProxyType({rule.name: rule for rule in map(_rule, names)})


def _rule(module: str) -> Rule:
    declared = import_module(f"{__name__}.{module}")
    return Rule(
        name=module.replace("_", "-"),
        page=cleandoc(declared.__doc__ or ""),
        check=getattr(declared, "check", None),
        holds_back=getattr(declared, "HOLDS_BACK", True),
    )


def check(library: Library, today: date) -> tuple[Finding, ...]:
    """Everything that is wrong with a library on a day: what its reading found, and what every rule finds."""
    found = [*library.findings]
    for rule in rules().values():
        if rule.check is not None:
            found += rule.check(library, today)
    return in_order(replace(finding, holds_back=_holds_back(finding)) for finding in found)


def _holds_back(finding: Finding) -> bool:
    rule = rules().get(finding.rule)
    return rule.holds_back if rule else finding.holds_back


def explain(name: str) -> str | None:
    """The manual page of a rule, or None if there is no such rule."""
    rule = rules().get(name)
    return rule.page if rule else None
