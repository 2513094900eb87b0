"""The figure somebody typed for a gauge."""

import re

_FIGURE = re.compile(r"\s*(\d{1,2}(?:[.,]\d{1,2})?|[.,]\d{1,2})\s*(?:bars?)?\s*", re.IGNORECASE)


def figure(typed: str) -> float | None:
    """A figure in bar as people write it, with a point or a comma, with or without the unit."""
    found = _FIGURE.fullmatch(typed)
    return float(found[1].replace(",", ".")) if found and found[1].isascii() else None
