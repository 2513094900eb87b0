"""The fields at the top of an article."""

from datetime import date
from enum import StrEnum
from typing import Annotated, Final, TypeAlias

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, StringConstraints, field_validator

from kb.facts import values_of


class Kind(StrEnum):
    """What sort of article a file holds."""

    FAULT = "fault"
    HOW_TO = "how-to"
    SETTING = "setting"
    SHARED = "shared"
    PASSAGES = "passages"
    DANGER = "danger"
    ENDS = "ends"


Words: TypeAlias = Annotated[str, StringConstraints(strip_whitespace=True, min_length=2, max_length=200)]

NOT_YET: Final = "not yet"
"""What `reviewed` says until a registered engineer has read a file."""


def _day_or_not_yet(written: object) -> object:
    return None if written == NOT_YET else written


Reviewed: TypeAlias = Annotated[date | None, BeforeValidator(_day_or_not_yet)]


class Header(BaseModel):
    """The fields at the top of an article; a field it does not know is a finding."""

    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=False)

    title: Words
    kind: Kind
    reviewed: Reviewed
    sources: tuple[Words, ...] = ()
    category: str | None = None
    often: int | None = Field(default=None, ge=1)
    also_said: tuple[Words, ...] = Field(default=(), alias="also-said")
    applies: dict[str, tuple[str, ...]] = Field(default_factory=dict)
    emergency: str | None = None

    @field_validator("applies")
    @classmethod
    def _only_facts(cls, applies: dict[str, tuple[str, ...]]) -> dict[str, tuple[str, ...]]:
        for fact, values in applies.items():
            known = values_of(fact)
            if known is None or set(values) - set(known):
                raise ValueError(f"{fact}: {', '.join(values)} is not a fact with these values")
        return applies
