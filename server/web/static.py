"""Style sheets, scripts and fonts, under addresses that change with their bytes, so that browsers may keep them."""

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
_MEDIA: Final = {"css": "text/css", "js": "text/javascript"}


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
def asset(name: str) -> Asset:
    """A style sheet or a script of ours by its file's name, with the fonts' addresses in it."""
    text = (_STATIC / name).read_text(encoding="utf-8")
    for weight, font in fonts().items():
        text = text.replace(f"url({weight})", f"url({font.address})")
    body = text.encode()
    stem, _, kind = name.partition(".")
    return Asset(f"/static/{stem}-{_print(body)}.{kind}", body, _MEDIA[kind])


def scripts(*names: str) -> tuple[str, ...]:
    """The addresses of some scripts of ours, in the order in which a page needs them."""
    return tuple(asset(name).address for name in names)


def stylesheet() -> Asset:
    """The style sheet of every page."""
    return asset("style.css")


def _print(body: bytes) -> str:
    return blake2b(body, digest_size=6).hexdigest()


def routes() -> APIRouter:
    """The addresses of the style sheets, the scripts and the fonts."""
    router = APIRouter()
    ours = (asset(path.name) for path in sorted(_STATIC.iterdir()) if path.suffix[1:] in _MEDIA)
    for each in (*ours, *fonts().values()):
        router.add_api_route(each.address, _sender(each), methods=["GET", "HEAD"], include_in_schema=False)
    return router


def _sender(kept: Asset) -> Callable[[Request], Awaitable[Response]]:
    async def send(request: Request) -> Response:
        return Response(kept.body, 200, {**SECURITY, "cache-control": FOREVER}, kept.media_type)

    return send
