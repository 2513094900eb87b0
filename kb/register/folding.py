"""How are names and streets laid side by side, whatever their case, accents and dashes?"""

import unicodedata
from typing import Final

_LETTERS_OF_THEIR_OWN: Final = str.maketrans({"ø": "o", "đ": "d", "ł": "l", "æ": "ae", "œ": "oe", "þ": "th", "ð": "d"})


def folded(*words: str) -> str:
    """Words in small plain letters, with one space before, between and after each; empty for none.

    Apostrophes join, as in O'Neil; every other sign parts.
    The spaces let a fragment ask for the beginning of a word, or for a whole one.
    """
    parts = " ".join(words).casefold().translate(_LETTERS_OF_THEIR_OWN).replace("'", "").replace("’", "")
    plain = (sign for sign in unicodedata.normalize("NFKD", parts) if not unicodedata.combining(sign))
    kept = "".join(sign if sign.isalnum() else " " for sign in plain).split()
    return f" {' '.join(kept)} " if kept else ""
