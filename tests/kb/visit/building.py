"""Closing forms for tests: a fault with three causes, and a job that was closed without any trouble."""

from datetime import UTC, date, datetime

from kb.handover.record import Entry
from kb.library import Library
from kb.triage.causes import chances
from kb.visit.form import Form, form_for
from kb.visit.job import Job
from kb.visit.written import Written, written
from tests.builders import library

TODAY = date(2026, 11, 25)
NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)

COLD = """
# The boiler is cold

## For the household

### Does it hum?

- [Yes](ends.md#call-us)
- [No](ends.md#call-us)

## For the engineer

### Listen to the pump

- [It turns](#look-at-the-board)
- [It is stuck](#free-the-pump)

{at-most=1 then="#look-at-the-board"}
### Free the pump

- [It turns now](ends.md#job-closed)
- [Still stuck](#free-the-pump)

### Look at the board

- [Burnt](ends.md#job-closed)
- [Fine](#listen-to-the-pump)

### Likely causes

| Cause | Share | Bring | Points to it | Points away |
|---|---|---|---|---|
| The pump | 50 | pump, gaskets | [It is stuck](#listen-to-the-pump) ×6 | |
| The board | 30 | board | [Burnt](#look-at-the-board) ×8 | |
| Something else | 20 | meter | | |
"""

PLAIN = {
    "arrived": "09:10",
    "left": "09:55",
    "cause": "the-pump",
    "outcome": "fixed",
    "unsafe": "no",
    "phone": "no",
    "shown": "off reset",
    "card": "right",
    "charge": "chargeable",
}
"""Everything that a plain job must say."""

UNSAFE = {
    **PLAIN,
    "outcome": "made-safe",
    "not-first": "part",
    "return-when": "none",
    "unsafe": "yes",
    "unsafe-class": "immediately-dangerous",
    "unsafe-what": "Products at the air intake",
    "unsafe-found": "2026-11-20",
    "unsafe-fuel": "natural-gas",
    "permission": "disconnected",
    "label": "yes",
    "notice": "Do not use: fumes come back in.",
    "notice-to": "The tenant",
    "landlord": "told",
    "landlord-who": "Agent, 10:20",
    "riddor": "yes",
}
"""Everything that a job with something Immediately Dangerous in it must say."""


def books() -> Library:
    return library(cold=COLD)


def form() -> Form:
    shelf = books()
    return form_for(chances(shelf.articles["cold"], {step.target: step for step in shelf.steps()}, {}))


def say(texts: dict[str, str], ended: str = "", **changes: str) -> Written:
    named = {name.replace("_", "-"): text for name, text in changes.items()}
    return written(form(), {**texts, **named}, TODAY, ended)


def job(texts: dict[str, str]) -> Job:
    entries = (Entry(f"entry-{n:04}", n, *each, "Robin", NOON) for n, each in enumerate(texts.items(), 1))
    return Job("job-1", "cold", NOON, "Robin", range="any", entries=tuple(entries))
