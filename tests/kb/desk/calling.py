"""Calls for tests: events in the order of a clock that goes on by ten seconds each."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

from kb.desk.danger import clear_answer, questions
from kb.desk.events import Did, Event
from kb.library import Library, load
from tests.builders import library

BEGAN = datetime(2026, 11, 25, 8, tzinfo=UTC)
ARTICLES = Path(__file__).parents[3] / "articles/en"

PRESSURE = """
# The gauge is low

## For the household

{fact=system}
### Is there a gauge?

- [Yes](#what-does-it-say){is=sealed}
- [No](ends.md#call-us){is=vented}
- [I am not sure](ends.md#call-us)

{reading=pressure}
### What does it say?

- [Low](#press-reset){below=low}
- [Right](ends.md#it-works){from=low}

{tries=reset at-most=2 then="ends.md#call-us"}
### Press reset

- [It runs](ends.md#it-works)
- [It stopped again](#press-reset)
- [I cannot do it](ends.md#call-us)

## For the engineer

### Read it cold

- [True](ends.md#job-closed)

### Likely causes

| Cause | Share | Bring | Points to it | Points away |
|---|---|---|---|---|
| Vessel flat | 60 | gauge, vessel | [Low](#what-does-it-say) ×4 | [Right](#what-does-it-say) ×2 |
| Weep | 40 | olives | [True](#read-it-cold) ×2 | |
"""

NOISE = """
# It bangs

## For the household

{fact=system}
### Has it got a gauge?

- [Yes, a gauge](#press-reset-for-the-noise){is=sealed}
- [No gauge](ends.md#call-us){is=vented}
- [I do not know](ends.md#call-us)

{tries=reset at-most=2 then="ends.md#call-us"}
### Press reset for the noise

- [Quiet](ends.md#it-works)
- [Still there](#press-reset-for-the-noise)
"""


def books() -> Library:
    return library(pressure=PRESSURE, noise=NOISE)


def real() -> Library:
    return load(ARTICLES)


class Told:
    """Events, told one after the other."""

    def __init__(self) -> None:
        self.events: list[Event] = []

    def did(self, did: Did, **said: str) -> "Told":
        at = BEGAN + timedelta(seconds=10 * len(self.events))
        named = {name.replace("_", "-"): words for name, words in said.items()}
        self.events.append(Event(f"e{len(self.events)}", at, "Wren", did, named))
        return self

    def asked(self, library: Library, *answers: str) -> "Told":
        for step, answer in zip(questions(library), answers, strict=False):
            self.did(Did.ASKED, step=step.anchor, answer=answer)
        return self

    def clear(self, library: Library) -> "Told":
        return self.asked(library, *["no"] * len(questions(library)))

    def answered(self, library: Library, *answers: str, branch: int = 0, start: int = 0) -> "Told":
        """Answers by their words, or by `words~reading`, at whatever step waits."""
        from kb.desk.call import read_call
        from kb.desk.script import places

        for place, words in enumerate(answers, start):
            call = read_call(self.events)
            at = places(library, call.branches, branch)[branch].at
            text, _, reading = words.partition("~")
            answer = next(each for each in at.answers if each.text == text)
            piece = f"{answer.token}~{reading}" if reading else answer.token
            self.did(
                Did.ANSWERED, branch=str(branch), place=str(place), piece=piece, question=at.title, answer=answer.text
            )
        return self


def no_to(library: Library) -> str:
    return "-".join(clear_answer(step).token for step in questions(library))
