"""How is an act told by its words: the verbs that ask for it, and the things it is done to?"""

import re
from dataclasses import dataclass
from typing import Final

_DONE: Final = {"take": "taken", "undo": "undone", "get": "got", "break": "broken", "cut": "cut", "light": "lit"}
A_FEW_WORDS: Final = (
    r"(?:(?!(?:on|in|at|under|behind|near|by|beside|from|through|inside|below|above|to|with|over|into|for|off|out|up|"
    r"and|so|of)\b)[\w'-]+,? ){0,5}"
)
"""What may stand between a verb and its thing.

A thing may stand a few words behind its verb, but not behind a preposition: "open the tap in front of the boiler"
opens a tap.
"""


def do(verbs: str) -> str:
    """A pattern of these verbs in the forms that ask: open, opening, and opened as in "have it opened"."""
    return rf"\b(?:{'|'.join(form for verb in verbs.split() for form in _forms(verb))})\b "


def a(things: str) -> str:
    """A pattern of one of these things, a few words behind what stands before it."""
    return rf"{A_FEW_WORDS}(?:{things})\b"


def _forms(verb: str) -> tuple[str, ...]:
    stem = verb.removesuffix("e")
    doubled = f"{verb}{verb[-1]}ing" if re.fullmatch(r"[^aeiou]*[aeiou][^aeiouwxy]", verb) else f"{stem}ing"
    return verb, f"{verb}ing", doubled, _DONE.get(verb, f"{stem}ed")


@dataclass(frozen=True, slots=True)
class Act:
    """An act, the words that ask for it, and words of the sentence that make it another one, or are needed for it."""

    name: str
    asks: re.Pattern[str]
    unless: re.Pattern[str] | None = None
    only_with: re.Pattern[str] | None = None

    def is_in(self, part: str, sentence: str) -> bool:
        """Whether a part of a sentence that asks for something asks for this."""
        if self.unless and self.unless.search(sentence):
            return False
        if self.only_with and not self.only_with.search(sentence):
            return False
        return self.asks.search(part) is not None


def act(name: str, *asks: str, unless: str | None = None, only_with: str | None = None) -> Act:
    """A row of the table."""
    return Act(
        name,
        re.compile("|".join(f"(?:{words})" for words in asks)),
        re.compile(unless) if unless else None,
        re.compile(only_with) if only_with else None,
    )
