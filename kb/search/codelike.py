"""Which of somebody's words look like the code of a display?"""

import re
from typing import Final

from kb.codes import normalise

_CODE: Final = re.compile(r"(?<![\w.])(?:[A-Za-z]{1,2}[-. ]?\d{1,3}|[A-Z]\d[A-Z]|\d[A-Za-z])(?![\w.]*\d)(?!\w)")
_AFTER_A_HINT: Final = re.compile(
    r"\b(?:code|error|fault|eror)s?\s+(?:code|number|no|is|says|of|:|-)?\s*([A-Za-z]?[-. ]?\d{1,3}|[A-Za-z]{1,2})(?!\w)",
    re.IGNORECASE,
)
_NO_CODES: Final = re.compile(
    r"(?:CO ?2|[A-Z]{2} \d+|[AI] \d+|H2O|\d+[ACFPSMHD]|[A-Z]{1,2}|IS\d*|ON\d*|IN\d*|TO|AT\d*|OF\d*|OR\d*|NO\d*|IT|WE|MY|HE)"
)
_MOST: Final = 4
_LONGEST: Final = 500


def codes_in(text: str) -> tuple[str, ...]:
    """What may be a code, in capitals and without its spaces, the likeliest first."""
    text = text[:_LONGEST]
    hinted = [normalise(found.group(1)) for found in _AFTER_A_HINT.finditer(text)]
    plain = [found.group() for found in _CODE.finditer(text)]
    likely = [normalise(code) for code in plain if not _NO_CODES.fullmatch(code.upper())]
    return tuple(dict.fromkeys(code for code in (*hinted, *likely) if code))[:_MOST]
