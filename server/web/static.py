"""The style sheet and the two fonts, under addresses that change with their bytes, so that browsers may keep them."""

from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Final

import fontpkg_atkinson_hyperlegible
from fastapi import APIRouter
from starlette.requests import Request
from starlette.responses import Response

from server.web.pages import SECURITY

FOREVER: Final = "public, max-age=31536000, immutable"
_STATIC: Final = Path(__file__).parent / "static"
_FONTS: Final = Path(fontpkg_atkinson_hyperlegible.__file__).parent / "files"
_WEIGHTS: Final = ("Regular", "Bold")


class MissingFont(Exception):
    """The font package is installed without its files; the message says which and how to get it back."""


@dataclass(frozen=True, slots=True)
class Asset:
    """A file that never changes under its address."""

    address: str
    body: bytes
    media_type: str


@cache
def fonts() -> dict[str, Asset]:
    """The two weights of the text font, by weight."""
    return {weight: _font(weight) for weight in _WEIGHTS}


def _font(weight: str) -> Asset:
    path = _FONTS / f"AtkinsonHyperlegible-{weight}.ttf"
    try:
        body = path.read_bytes()
    except OSError:
        raise MissingFont(
            f"Expected the font file {path.name} in the package fontpkg-atkinson-hyperlegible, but it is not there. "
            "Install the pinned packages again: `make demo` does it."
        ) from None
    return Asset(f"/static/{weight.lower()}-{_print(body)}.ttf", body, "font/ttf")


@cache
def stylesheet() -> Asset:
    """The one style sheet, with the fonts' addresses in it."""
    text = (_STATIC / "style.css").read_text(encoding="utf-8")
    for weight, font in fonts().items():
        text = text.replace(f"url({weight})", f"url({font.address})")
    body = text.encode()
    return Asset(f"/static/style-{_print(body)}.css", body, "text/css")


def _print(body: bytes) -> str:
    return blake2b(body, digest_size=6).hexdigest()


def routes() -> APIRouter:
    """The addresses of the style sheet and the fonts."""
    router = APIRouter()
    for asset in (stylesheet(), *fonts().values()):
        router.add_api_route(asset.address, _sender(asset), methods=["GET", "HEAD"], include_in_schema=False)
    return router


def _sender(asset: Asset) -> Callable[[Request], Awaitable[Response]]:
    async def send(request: Request) -> Response:
        return Response(asset.body, 200, {**SECURITY, "cache-control": FOREVER}, asset.media_type)

    return send
