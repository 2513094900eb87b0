"""What a region's own authorities tell people to do first, and the numbers that are called there."""

import tomllib
from collections.abc import Mapping
from datetime import date
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, StringConstraints, ValidationError

from kb.findings import Finding, Place

ORDERS = ("gas-smell", "carbon-monoxide", "fire", "boiling-tank", "hurt")
"""The emergencies that every region has an order of actions for."""

_Words = Annotated[str, StringConstraints(strip_whitespace=True, min_length=2)]


class Number(BaseModel):
    """A number to call, who answers it, and how that is known."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    number: _Words
    name: _Words
    also: tuple[str, ...] = ()
    source: _Words
    checked: date


class Action(BaseModel):
    """One thing to do in an emergency; `{gas}` and `{emergency}` in it stand for the numbers."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    do: _Words
    why: _Words | None = None
    source: _Words
    checked: date


class Region(BaseModel):
    """A region's profile: its numbers, and its order of actions for each emergency."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    code: _Words
    name: _Words
    language: _Words
    reviewed: date
    numbers: Mapping[str, Number]
    orders: Mapping[str, tuple[Action, ...]] = Field(default_factory=dict)

    def say(self, action: Action, numbers: Mapping[str, str]) -> str:
        """The words of an action with the numbers in them; `numbers` overrules the region's own."""
        own = {kind: number.number for kind, number in self.numbers.items()}
        words = action.do
        for kind, number in {**own, **numbers}.items():
            words = words.replace("{" + kind + "}", number)
        return words


def read_region(file: str, text: str) -> tuple[Region | None, tuple[Finding, ...]]:
    """Read one profile; everything that is wrong with it is a finding."""

    def finding(found: str) -> Finding:
        return Finding(Place(file, 1), "region", found, "See the other profiles for the shape of one.")

    try:
        region = Region.model_validate(tomllib.loads(text))
    except tomllib.TOMLDecodeError as error:
        return None, (finding(f"The profile is not readable TOML: {error}."),)
    except ValidationError as error:
        return None, tuple(finding(f"{'.'.join(map(str, wrong['loc']))}: {wrong['msg']}.") for wrong in error.errors())
    lacking = [f"numbers.{kind}" for kind in ("emergency", "gas") if kind not in region.numbers]
    lacking += [f"orders.{order}" for order in ORDERS if not region.orders.get(order)]
    return region, tuple(finding(f"The profile has no {name}.") for name in lacking)
