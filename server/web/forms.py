"""Was a form sent from a page of ours, and what stands in it?"""

from collections.abc import Mapping
from typing import Final
from urllib.parse import urlsplit

from starlette.exceptions import HTTPException
from starlette.requests import Request

LONGEST_FORM: Final = 2_000_000
"""The most bytes a form may have: a list of five thousand homes is half of it."""


class NotMeant(HTTPException):
    """A form that did not come from a page of ours: somebody else's page may have sent it."""

    def __init__(self) -> None:
        super().__init__(403)


def refuse_foreign(request: Request) -> None:
    """Raise NotMeant for a form that the browser says was sent by a page of another site.

    A page that hands on no address has its forms sent from the origin "null": then only the browser's own word on the
    site counts.
    """
    site = request.headers.get("sec-fetch-site")
    origin = request.headers.get("origin")
    if site is not None and site not in ("same-origin", "none"):
        raise NotMeant
    if origin == "null" and site is not None:
        return
    if origin is not None and urlsplit(origin).netloc != request.url.netloc:
        raise NotMeant


async def form_of(request: Request, longest: int = LONGEST_FORM) -> Mapping[str, str]:
    """The fields of a form, files as their text; raises 413 for one that no page of ours could send."""
    length = request.headers.get("content-length", "")
    if not length.isascii() or not length.isdigit() or int(length) > longest:
        raise HTTPException(413)
    fields: dict[str, str] = {}
    async with request.form(max_files=1, max_fields=500) as form:
        for name, value in form.multi_items():
            fields[name] = value if isinstance(value, str) else (await value.read()).decode("utf-8", "replace")
    return fields
