"""Where is a home?"""

import re
from dataclasses import dataclass
from typing import Final

from kb.register.mistakes import Mistake

BRITISH: Final = ("GB", "NI")
"""The regions whose postcodes can be told from anything else."""

_POSTCODE: Final = re.compile(r"(GIR|[A-Z]{1,2}[0-9][A-Z0-9]?)([0-9][A-Z]{2})")
"""The shape of a British postcode: outward part, then a figure and two letters (BS 7666, from memory)."""

_ELSEWHERE: Final = re.compile(r"[A-Z0-9][A-Z0-9 -]{1,10}[A-Z0-9]")


@dataclass(frozen=True, slots=True)
class Address:
    """A home's address; `lines` are what stands above the town, `postcode` is as `read_postcode` writes it."""

    lines: tuple[str, ...]
    town: str
    postcode: str

    @property
    def spoken(self) -> str:
        """The whole address in one line."""
        return ", ".join([*self.lines, self.town, self.postcode])


def read_postcode(written: str, region: str) -> str | Mistake:
    """A postcode in any case and spacing, as its own country writes it."""
    tidy = " ".join(written.upper().split())
    if region not in BRITISH:
        if _ELSEWHERE.fullmatch(tidy):
            return tidy
        return Mistake("postcode", "a postcode", repr(written), "Write it as it stands on a letter.")
    found = _POSTCODE.fullmatch(tidy.replace(" ", "").replace("-", ""))
    if found is None:
        return Mistake("postcode", "a postcode such as ZZ9 9ZZ", repr(written), "Read it again from a letter.")
    return f"{found[1]} {found[2]}"
