"""Homes, ranges, libraries and cards for the tests of the card, small and whole."""

from datetime import date
from pathlib import Path
from random import Random
from typing import Final

from kb import keys
from kb.appliance import Range
from kb.card import A6_PLAIN, Card, Refused, Size, Style, card_of
from kb.facts import GaugeMarks, Known
from kb.firm import Firm
from kb.home import Home
from kb.library import Library, build
from kb.logo import Logo
from kb.notation.ranges import read_range
from kb.region import Region, read_region
from tests.builders import TODAY, article, firm

KEY: Final = "9EJFP-R992N-EKTAM"
REGIONS: Final = Path(__file__).parents[3] / "articles" / "en" / "regions"

RANGE: Final = """---
name: Anymake
kind: combi
display: text
limits: {{reset: {reset}}}
reviewed: 2026-11-25
sources: [invented]
---

# Anymake

## Reset

Only when the sign shows.

1. Hold the button marked R for five seconds
2. Wait for two minutes.

> Never hold it longer.

## Filling

Turn the key.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| A1 | No flame | ignition-failure | reset | invented |
"""

PLACES: Final = {
    "gas-valve": "in the hall cupboard",
    "stop-tap": "under the kitchen sink",
    "switch": "beside the boiler",
    "filling-loop": "under the boiler",
    "condensate-end": "at the yard drain",
}

MARKS: Final = GaugeMarks()

SEALED: Final = {"system": "sealed", "fuel": "natural-gas", "meter": "prepay", "condensate": "outside"}
VENTED: Final = {"system": "vented", "fuel": "natural-gas", "meter": "credit", "condensate": "none"}


def gb(name: str = "gb") -> Region:
    """A region's profile as it stands in the repository."""
    region, findings = read_region(f"{name}.toml", (REGIONS / f"{name}.toml").read_text(encoding="utf-8"))
    assert region is not None, findings
    return region


def family(reset: int = 2) -> Range:
    """A range that may be reset so often."""
    read, findings = read_range("anymake.md", RANGE.format(reset=reset))
    assert read is not None
    assert not findings
    return read


def home(facts: dict[str, str] = SEALED, marks: GaugeMarks = MARKS, **changes: object) -> Home:
    """A home with a key, places and a date for its service."""
    fields: dict[str, object] = {
        "key": KEY,
        "range": "anymake",
        "appliance": "Anymake 24",
        "known": Known(facts, marks),
        "places": PLACES,
        "next_service": date(2027, 6, 14),
    }
    return Home(**{**fields, **changes})  # type: ignore[arg-type]


def fault(id: str, often: int, *lines: str) -> str:
    """The text of a fault that has these lines for the card, and one step."""
    card = "\n".join(f"- {line}" for line in lines)
    section = f"### On the card\n\n{card}\n" if lines else ""
    step = "### What now?\n\n- [Ring](ends.md#call-us)\n"
    return f"# It is {id.replace('-', ' ')}\n\n## For the household\n\n{step}\n{section}"


def library(*faults: tuple[str, int, tuple[str, ...]], **fields: str) -> Library:
    """A library of faults, each with its id, how often it comes, and its lines for the card."""
    chosen = faults or tuple((f"fault-{n}", n, ("Look at this.", "Then ring us.")) for n in range(1, 6))
    return build(
        article(id, fault(id, often, *lines), category=id, often=str(often), **fields) for id, often, lines in chosen
    )


def made(
    home_: Home | None = None,
    range_: Range | None = None,
    firm_: Firm | None = None,
    region: Region | None = None,
    library_: Library | None = None,
    today: date = TODAY,
    style: Style = A6_PLAIN,
) -> Card | Refused:
    """What comes of asking for a card, everything usual that is not given."""
    return card_of(
        home_ or home(),
        range_ or family(),
        firm_ or firm(),
        region or gb(),
        library_ or library(),
        today=today,
        style=style,
    )


def card(**given: object) -> Card:
    """The card, which must not be refused."""
    found = made(**given)  # type: ignore[arg-type]
    assert isinstance(found, Card), [str(reason) for reason in found.reasons]
    return found


def refusals(**given: object) -> dict[str, str]:
    """Why there is no card: the fields, and what was found in each."""
    found = made(**given)  # type: ignore[arg-type]
    assert isinstance(found, Refused)
    return {reason.field: reason.found for reason in found.reasons}


LOGO: Final = Logo(
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 30 10"><path fill="#1d4e5f" d="M0 0h30v10z"/></svg>', 30, 10
)


def fleet(size: Size, count: int) -> list[Card]:
    """So many homes' cards of one size: each with a key and a place of its own, the second one's fuel LPG."""
    cards = []
    for n in range(count):
        places = {"gas-valve": f"behind panel {n} "}
        facts = {**SEALED, "fuel": "lpg"} if n == 1 else SEALED
        each = home(facts, key=keys.make(Random(n)), places=places)
        cards.append(card(home_=each, firm_=firm(demo=True), style=Style(size, LOGO)))
    return cards
