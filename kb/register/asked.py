"""What may somebody mean who types a few signs to find a home?"""

import re
from dataclasses import dataclass
from typing import Final

from kb import keys
from kb.register.address import BRITISH, read_postcode
from kb.register.folding import folded
from kb.register.mistakes import Mistake
from kb.register.people import read_phone

FEWEST_DIGITS: Final = 4
"""How many last digits of a phone tell homes apart at all."""

FEWEST_OF_KEY: Final = 4
"""How many first characters of a key tell homes apart: among a million homes, three or four share so many."""

LONGEST: Final = 100
"""More than this nobody types to find a home."""

_PHONE: Final = re.compile(r"[+(]?[0-9][0-9 ()./+-]*")
_NATIONAL_ZERO: Final = re.compile(r"\(0\)")
_POSTCODE: Final = re.compile(r"(?=.*[0-9])[A-Z0-9]{2,8}")


@dataclass(frozen=True, slots=True)
class Asked:
    """Every reading of what was typed; a reading that cannot be meant is empty.

    `key_start` is the beginning of a key as it is printed, `digits` are the last of a phone's digits, `postcode` is the
    beginning of one without spaces, `words` are folded.
    """

    key: str = ""
    digits: str = ""
    postcode: str = ""
    words: tuple[str, ...] = ()
    key_start: str = ""


def understand(typed: str, region: str) -> Asked:
    """Read what was typed as a key, as a phone's digits, as a postcode, and as words of a name or street.

    What is clearly one of the first three is not looked for as the last.
    """
    if len(typed) > LONGEST:
        return Asked()
    key = keys.tidy(typed)
    if key:
        return Asked(key=key)
    digits = _digits(typed.strip(), region)
    whole = region in BRITISH and isinstance(read_postcode(typed, region), str)
    start = "" if whole else keys.beginning(typed, FEWEST_OF_KEY)
    return Asked("", digits, _postcode(typed), () if digits or whole else _words(typed), start)


def _digits(typed: str, region: str) -> str:
    if not _PHONE.fullmatch(typed):
        return ""
    whole = read_phone(typed, region)
    if not isinstance(whole, Mistake):
        return whole.removeprefix("+")
    # The zero before an area's code is dialled inside the country and is no part of the number.
    digits = re.sub("[^0-9]", "", _NATIONAL_ZERO.sub("", typed)).lstrip("0" if len(typed) > FEWEST_DIGITS else "")
    return digits if len(digits) >= FEWEST_DIGITS else ""


def _postcode(typed: str) -> str:
    compact = re.sub(r"[\s-]", "", typed.upper())
    return compact if _POSTCODE.fullmatch(compact) else ""


def _words(typed: str) -> tuple[str, ...]:
    words = tuple(dict.fromkeys(folded(typed).split()))
    return words if any(len(word) > 1 for word in words) else ()
