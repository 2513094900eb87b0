"""What is one thing that a handover record asks for?"""

from collections.abc import Mapping
from enum import StrEnum
from typing import Final

from pydantic import BaseModel, ConfigDict

LONGEST_WORDS: Final = 200
"""How long words may be where a field does not say."""


class Kind(StrEnum):
    """How a field is answered."""

    FIGURE = "figure"
    CHOICE = "choice"
    YES_NO = "yes-no"
    WORDS = "words"
    TICKS = "ticks"
    DATE = "date"


class Field(BaseModel):
    """One thing to fill in.

    `span` is what can be typed at all, in `unit`; `options` are the choices or ticks by id.
    `sets` names what it says of the home, such as `fact:fuel`, `mark:aim`, `place:switch`, `home:fitted` or
    `alarm:co.place`.
    `aside` is what is asked only of those who have it to hand.
    `when` names other fields and the choices with which this one is asked.
    `asks` and `danger` hold what is said of an option: a question to the engineer, or a danger.
    """

    model_config = ConfigDict(extra="forbid", frozen=True)

    id: str
    section: str
    words: str
    kind: Kind
    unit: str = ""
    span: tuple[float, float] | None = None
    options: Mapping[str, str] = {}
    help: str = ""
    sets: str = ""
    needed: bool = False
    aside: bool = False
    most: int = LONGEST_WORDS
    when: Mapping[str, tuple[str, ...]] = {}
    asks: Mapping[str, str] = {}
    danger: Mapping[str, str] = {}

    @property
    def target(self) -> tuple[str, str]:
        """What it sets: of which kind, and the name; two empty words where it sets nothing."""
        kind, _, name = self.sets.partition(":")
        return kind, name

    def is_asked(self, chosen: Mapping[str, str]) -> bool:
        """Whether what was chosen so far makes it part of the record."""
        return all(chosen.get(other, "") in values for other, values in self.when.items())


class Section(BaseModel):
    """Fields that belong together, about a screen of a phone."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    id: str
    title: str
    fields: tuple[Field, ...]
