"""The desk's own style sheet and script, under addresses that change with their bytes."""

from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Final

from server.web.static import Asset

_FOLDER: Final = Path(__file__).parent / "static"


@cache
def stylesheet() -> Asset:
    """What the desk's pages look like beyond the household's."""
    return _asset("desk.css", "text/css")


@cache
def script() -> Asset:
    """What puts a new page in the place of the old one when a file was saved."""
    return _asset("desk.js", "text/javascript")


def _asset(name: str, media_type: str) -> Asset:
    body = (_FOLDER / name).read_bytes()
    stem, _, ending = name.partition(".")
    return Asset(f"/static/{stem}-{blake2b(body, digest_size=6).hexdigest()}.{ending}", body, media_type)
