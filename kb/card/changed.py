"""Would this card be printed otherwise than the one that was printed before?"""

import json
from dataclasses import asdict
from hashlib import sha256
from typing import Final

from kb.card.value import Card

_FOUND_BY_FITTING: Final = ("front", "back")


def fingerprint(card: Card) -> str:
    """The same 64 characters for the same contents in the same size, on every machine.

    It says nothing of how large the words came out, which follows from the contents.
    Keep the one of the card as it was gathered: what gave way for want of room is then counted in as well.
    """
    contents = asdict(card)
    for name in _FOUND_BY_FITTING:
        del contents[name]
    written = json.dumps(contents, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return sha256(written.encode()).hexdigest()
