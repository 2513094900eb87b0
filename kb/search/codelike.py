"""Which of somebody's words look like the code of a display?"""

import re
from typing import Final

from kb.codes import normalise

_PLAIN: Final = re.compile(r"(?<![\w.])[A-Za-z]{1,2}[-.]?\d{1,3}(?![\w.]*\d)(?!\w)")
_AFTER_A_HINT: Final = re.compile(
    r"(?i:\b(?:code|error|fault)s?\b(?:\s+(?:code|number|is|says|of|light)\b)*)[\s:\-]*"
    r"((?i:[a-z]{0,2})[-. ]?\d{1,3}|[A-Z]{1,2})(?!\w)"
)
_NO_CODES: Final = frozenset({"CO2", "H2O", "M3", "MP3"})
_MOST: Final = 4
_LONGEST: Final = 500


def codes_in(text: str) -> tuple[str, ...]:
    """What may be a code, in capitals and without its spaces, the likeliest first.

    Letters alone or figures alone are one only behind "code", "error" or "fault".
    """
    text = text[:_LONGEST]
    hinted = (found.group(1) for found in _AFTER_A_HINT.finditer(text))
    plain = (found.group() for found in _PLAIN.finditer(text))
    codes = dict.fromkeys(normalise(code) for code in (*hinted, *plain))
    return tuple(code for code in codes if code and code not in _NO_CODES)[:_MOST]
