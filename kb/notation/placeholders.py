"""What has an author still to say where a skeleton left room for it?"""

import re
from typing import Final

from kb.notation.desk import Desk

_LEFT: Final = re.compile(r"‹[^‹›]*›|[‹›]")


def note_placeholders(text: str, desk: Desk) -> None:
    """Note everything that still stands between ‹ and ›."""
    for number, line in enumerate(text.splitlines(), 1):
        for left in dict.fromkeys(_LEFT.findall(line)):
            desk.note(number, "placeholder", f"Here still stands {left}.", "Write your own words in its place.")
