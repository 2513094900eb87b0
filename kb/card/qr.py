"""How is a home's address drawn as a QR code that a phone reads from the card?

The only module that knows segno.
"""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import groupby
from typing import Final

import segno

from kb.card.palette import INK, PAPER

QUIET_ZONE: Final = 4
"""How many modules stay empty around the code (ISO/IEC 18004)."""

SMALLEST_MODULE_MM: Final = 0.5
"""The smallest module that a phone reads from a printed card at arm's length (common practice)."""

_MASK: Final = 2
_OF_A_KEY: Final = re.compile("[0-9A-Z]")


def fits(address: str, side_mm: float) -> bool:
    """Whether an address makes a code of this side, its quiet zone included, whose modules are large enough."""
    return module_mm(address, side_mm) >= SMALLEST_MODULE_MM


def module_mm(address: str, side_mm: float) -> float:
    """The side of one module in a code of this side, or 0 where no code can hold the address."""
    try:
        # What differs from key to key takes the same room, so one code answers for all homes of a site.
        modules = len(_matrix(_OF_A_KEY.sub("A", address)))
    except segno.DataOverflowError:
        return 0.0
    return side_mm / (modules + 2 * QUIET_ZONE)


def drawn(address: str) -> str:
    """The code as SVG: error correction M or better, and the quiet zone around it."""
    rows = _matrix(address)
    side = len(rows) + 2 * QUIET_ZONE
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {side} {side}" shape-rendering="crispEdges">'
        f'<path fill="{PAPER}" d="M0 0h{side}v{side}h-{side}z"/><path fill="{INK}" d="{"".join(_runs(rows))}"/></svg>'
    )


@lru_cache(maxsize=64)
def _matrix(address: str) -> tuple[bytes, ...]:
    # Trying all eight masks takes four times as long, and every reader reads every mask.
    code = segno.make(address, error="m", boost_error=True, micro=False, mask=_MASK)
    return tuple(bytes(row) for row in code.matrix)


def _runs(rows: Iterable[bytes]) -> Iterator[str]:
    """The dark modules of each row, neighbours in one piece so that no hairline shows between them."""
    for y, row in enumerate(rows):
        x = 0
        for dark, run in groupby(row):
            length = len(list(run))
            if dark:
                yield f"M{x + QUIET_ZONE} {y + QUIET_ZONE}h{length}v1h-{length}z"
            x += length
