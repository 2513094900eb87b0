"""A page value to bytes with the headers that belong to it."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache
from hashlib import blake2b
from pathlib import Path
from typing import Any, ClassVar, Final

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import Response

_SERVER: Final = Path(__file__).parent.parent
TEMPLATES: Final = tuple(
    _SERVER / room / "templates"
    for room in ("web", "household", "staff", "desk", "engineer", "office", "author", "diary", "preview")
)

SECURITY: Final[Mapping[str, str]] = {
    "content-security-policy": (
        "default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self' data:; form-action 'self'; "
        "base-uri 'none'; frame-ancestors 'none'"
    ),
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "permissions-policy": "camera=(), geolocation=(), microphone=()",
    "cross-origin-opener-policy": "same-origin",
}
"""Headers of every answer: no script, nothing from elsewhere, no address handed on to other sites."""

WITH_SCRIPT: Final[Mapping[str, str]] = {
    **SECURITY,
    "content-security-policy": f"{SECURITY['content-security-policy']}; script-src 'self'; connect-src 'self'",
}
"""Headers of the few pages of the staff that have a script of ours; no page of a household is one."""

PUBLIC: Final = "public, max-age=60"
PRIVATE: Final = "no-store"


@dataclass(frozen=True, slots=True)
class Page:
    """What a template shows; each subclass names its template, and its fields are all that the template may use."""

    template: ClassVar[str]


@cache
def environment() -> Environment:
    """The templates, which fail on a name that the page does not have."""
    return Environment(
        loader=FileSystemLoader(TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )


def render(page: Page) -> bytes:
    """The page as HTML."""
    values: dict[str, Any] = {each.name: getattr(page, each.name) for each in fields(page)}
    return environment().get_template(page.template).render(values).encode()


def answer(
    page: Page, status: int = 200, cache_control: str = PRIVATE, policy: Mapping[str, str] = SECURITY
) -> Response:
    """The page as a response, which may be kept and sent again."""
    body = render(page)
    headers = {**policy, "cache-control": cache_control}
    if cache_control == PUBLIC:
        headers["etag"] = f'"{blake2b(body, digest_size=12).hexdigest()}"'
    else:
        headers["x-robots-tag"] = "noindex"
    return Response(body, status, headers, "text/html")


def fresh(request: Request, response: Response) -> Response:
    """The response, or 304 if the browser has these very bytes already."""
    etag = response.headers.get("etag")
    if etag is not None and request.headers.get("if-none-match") == etag:
        kept = {
            name: value for name, value in response.headers.items() if name not in ("content-length", "content-type")
        }
        return Response(status_code=304, headers=kept)
    return response
