"""What does somebody begin with who writes a new article, or a new range?

A skeleton is an article that can be read, drawn and walked at once.
What its author has still to say stands between ‹ and ›, and the rule `placeholder` finds each of them.
"""

import re
from datetime import date
from pathlib import Path
from string import Template
from typing import Final

KINDS: Final = ("fault", "how-to", "shared", "range")
"""What there is a skeleton of."""

_FOLDER: Final = Path(__file__).parent
_ID: Final = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


def is_id(name: str) -> bool:
    """Whether a name may be that of an article or range: small letters and figures, joined by single dashes."""
    return _ID.fullmatch(name) is not None


def skeleton(kind: str, id: str, today: date) -> str:
    """The text of a new article or range.

    Raises ValueError for a kind there is no skeleton of, or a name that no file may have.
    """
    if kind not in KINDS or not is_id(id):
        raise ValueError(
            f"Expected one of {', '.join(KINDS)} and a name like slow-hot-water, found {kind!r} and {id!r}."
        )
    words = id.replace("-", " ")
    text = (_FOLDER / f"{kind}.md").read_text(encoding="utf-8")
    return Template(text).substitute(id=id, words=words, title=words.capitalize(), today=today.isoformat())
