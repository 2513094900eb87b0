"""Does a text ask for an act that no household may do, or for one that may be done only so often?"""

import re
from collections.abc import Iterator
from typing import Final

from kb.act_table import CASE, FLAME, FORBIDDEN, GAS, LIMITED, OPEN_THE_CASE
from kb.asking import asked
from kb.reading import sentences

_OTHER_THINGS: Final = (
    r"\w*\s?ladder|boiler|switch|radiator|stop tap|tap|hose|loop|heating|power|electricity|water|thermostat|control|"
    r"meter|button|lever|hob|cooker|ring|oven|fire|lights?|pump|cylinder|pipe|gauge|dial|key|heater|battery|batteries|"
    r"screen|window|door|bottle|tank|immersion|programmer|timer|knob|jug|cloth|alarm"
)
_THING: Final = re.compile(rf"\b(?:{GAS}|{CASE}|{FLAME}|{_OTHER_THINGS})\b")
_OPENS_BY_HAND: Final = re.compile(r"\b(?:meter|consumer unit|fuse ?box|fuse ?board)\b")
_COMES_OFF_BY_HAND: Final = re.compile(r"\bbatter(?:y|ies)\b|\bradiator covers?\b|\bbed ?covers?\b")


def forbidden_acts(text: str) -> Iterator[tuple[str, str]]:
    """Every sentence of a household's text that asks for a forbidden act, with the act's name.

    "it" and "them" are read as the thing that was named last, so the sentences of one text must come together.
    """
    for sentence, part in _requests(text):
        for name in dict.fromkeys(act.name for act in FORBIDDEN if act.is_in(part, sentence.lower())):
            if not (name == OPEN_THE_CASE and _made_for_hands(part)):
                yield sentence, name


def limited_acts(text: str) -> Iterator[tuple[str, str]]:
    """Every sentence that asks for something that may be tried only so often, with its name in `kb.facts.TRIED`."""
    for sentence, part in _requests(text):
        for act in LIMITED:
            if act.is_in(part, sentence.lower()):
                yield sentence, act.name


def _requests(text: str) -> Iterator[tuple[str, str]]:
    """Every part of every sentence that asks for something, "it" in it replaced by what it stands for."""
    last = ""
    for sentence in sentences(text):
        for part in asked(sentence):
            yield sentence, re.sub(r"\b(?:it|them)\b", last, part, count=1) if last else part
            last = _last_thing(part) or last
        last = _last_thing(sentence.lower()) or last


def _last_thing(words: str) -> str:
    found = [match[0] for match in _THING.finditer(words)]
    return f"the {found[-1]}" if found else ""


def _made_for_hands(part: str) -> bool:
    """Whether what is opened is made for a household's hand: the door of a meter box, a battery's cover.

    Opening the lid of a meter box or consumer unit shows a screen or switches and needs no tool; taking it off
    bares live parts, so only the opening of those is let pass.
    """
    if _COMES_OFF_BY_HAND.search(part):
        return True
    return bool(_OPENS_BY_HAND.search(part)) and part.startswith(("open", "lift", "slide", "close"))
