"""What is asked to close a job about one fault, the likeliest first?"""

import re
import tomllib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any, Final

from kb.facts import FACTS
from kb.handover.field import Field, Kind, Section
from kb.handover.form import YES_NO
from kb.triage.causes import Chance
from kb.visit.unsafe import CLASSES

FOLDER: Final = Path(__file__).parent / "form"
SECTIONS: Final = ("close", "changes", "unsafe")

NO_FAULT: Final = "No fault, advice given"
"""The cause of a visit that found nothing wrong."""

OTHER: Final = "Something else"
"""The cause that is none of the article's, told in words."""


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two answers that cannot both be: with which choices, at which field it is told, and what is said."""

    field: str
    when: Mapping[str, tuple[str, ...]]
    words: str


@dataclass(frozen=True, slots=True)
class Form:
    """All that is asked; `causes` and `parts` give the names behind the options."""

    sections: tuple[Section, ...]
    conflicts: tuple[Conflict, ...]
    causes: Mapping[str, str]
    parts: Mapping[str, str]
    by_id: Mapping[str, Field] = field(repr=False)


def form_for(found: Sequence[Chance]) -> Form:
    """The form about a fault whose causes have these chances, the likeliest first."""
    causes = _causes(found)
    parts = {slug(part): part for chance in found for part in chance.cause.bring}
    lists: dict[str, Mapping[str, str]] = {"causes": causes, "parts": parts, "classes": CLASSES, **FACTS}
    sections = tuple(Section(id=id, title=_written(id)["title"], fields=tuple(_fields(id, lists))) for id in SECTIONS)
    by_id = {each.id: each for section in sections for each in section.fields}
    return Form(sections, _conflicts(), causes, parts, by_id)


def slug(words: str) -> str:
    """A name without spaces that stands for words in a form."""
    return re.sub(r"[^a-z0-9]+", "-", words.casefold()).strip("-")


def _causes(found: Sequence[Chance]) -> Mapping[str, str]:
    own = {slug(each.cause.name): each.cause.name for each in found if each.cause.name != OTHER}
    return {**own, "none": NO_FAULT, "other": OTHER}


@cache
def _written(name: str) -> Mapping[str, Any]:
    return tomllib.loads((FOLDER / f"{name}.toml").read_text(encoding="utf-8"))


def _fields(section: str, lists: Mapping[str, Mapping[str, str]]) -> Iterator[Field]:
    always = _written(section).get("when", {})
    for each in _written(section)["field"]:
        own = each.get("options", {})
        options = lists[own] if isinstance(own, str) else YES_NO if each["kind"] == Kind.YES_NO else own
        if options or each["kind"] != Kind.TICKS:
            when = {**always, **each.get("when", {})}
            yield Field.model_validate({**each, "section": section, "options": options, "when": when})


def _conflicts() -> tuple[Conflict, ...]:
    return tuple(
        Conflict(each["field"], {other: tuple(values) for other, values in each["when"].items()}, each["words"])
        for each in _written("conflicts")["conflict"]
    )
