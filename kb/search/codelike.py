"""Which of somebody's words look like the code of a display, and what else do they say?"""

import re
from collections.abc import Iterator
from typing import Final

from kb.codes import normalise
from kb.spoken import CODE_WORDS, pieces, sign_at, spelt_behind, spelt_in

_PLAIN: Final = re.compile(r"(?<![\w.])[A-Za-z]{1,2}[-.]?\d{1,3}(?![\w.]*\d)(?!\w)")
_HINT: Final = r"(?i:\b(?:code|error|fault)s?\b(?:\s+(?:code|number|is|says|of|light)\b)*)"
_AFTER_A_HINT: Final = re.compile(_HINT + r"[\s:\-]*((?i:[a-z]{0,2})[-. ]?\d{1,3}|[A-Z]{1,2})(?!\w)")
_A_HINT: Final = re.compile(_HINT)
_NO_CODES: Final = frozenset({"CO2", "H2O", "M3", "MP3"})
_SAYS_NOTHING: Final = re.compile(
    r"(?:codes?|errors?|faults?|numbers?|shows?|shown|showing|says?|reads?|display(?:s|ed|ing)?|screen|panel|boiler|"
    r"came|comes|up|flash(?:es|ing)?|blinks?|blinking|lights?|its?|is|has|have|got|get|the|a|an|my|our|on|and|of|with|"
    r"this|that|there|what|does|do|mean|means|for|as|in|like|i|we|now|just|keeps?|then|or|first|later|again|after|"
    r"before|today|still|new|another)"
)
_MOST: Final = 4
_LONGEST: Final = 500


def codes_in(text: str) -> tuple[str, ...]:
    """What may be a code, in capitals and without its spaces, the likeliest first.

    Letters alone or figures alone are one only behind "code", "error" or "fault"; so is what is spelt out, unless it
    begins with an example or the radio alphabet ("k for kettle 11", "kilo one one").
    """
    text = text[:_LONGEST]
    hinted = (found.group(1) for found in _AFTER_A_HINT.finditer(text))
    plain = (found.group() for found in _PLAIN.finditer(text))
    codes = dict.fromkeys(normalise(code) for code in (*hinted, *_spelt_behind_hints(text), *plain, *spelt_in(text)))
    return tuple(code for code in codes if code and code not in _NO_CODES)[:_MOST]


def besides_codes(text: str) -> str:
    """What somebody says apart from codes; empty where they say nothing else.

    "Code 23, water pours out" says that water pours out, and "the code is K11" says nothing more.
    """
    rest = _PLAIN.sub(" ", _AFTER_A_HINT.sub(" ", text))
    found = pieces(rest)
    return rest if any(_says_something(piece, at, found) for at, piece in enumerate(found)) else ""


def _spelt_behind_hints(text: str) -> Iterator[str]:
    for hint in _A_HINT.finditer(text):
        spelt = spelt_behind(text[hint.end() :])
        if len(spelt) > 1 and any(sign.isdigit() for sign in spelt):
            yield spelt


def _says_something(piece: str, at: int, found: list[str]) -> bool:
    if not piece.isalpha() or len(piece) == 1 or piece in CODE_WORDS or sign_at(found, at):
        return False
    # The word of an example, "kettle" in "k for kettle", says nothing either.
    example = at > 1 and found[at - 1] in ("for", "in", "like") and (len(found[at - 2]) == 1 or found[at - 2] == "as")
    return not (example or _SAYS_NOTHING.fullmatch(piece))
