"""Which article and which home does an address ask for?"""

from starlette.requests import Request

from kb.article import Audience, Step
from kb.home import Home
from kb.keys import tidy
from server.site import Site
from server.web.errors import Gone, NotFound


def start_of(site: Site, article: str) -> Step:
    """The household's first step of an article; raises NotFound."""
    found = site.library.articles.get(article)
    start = found.first(Audience.HOUSEHOLD) if found else None
    if start is None:
        raise NotFound
    return start


def home_of(site: Site, request: Request) -> Home | None:
    """The home whose key stands in the address, or None for a public page; raises NotFound or Gone."""
    written = request.path_params.get("key")
    if written is None:
        return None
    return home_with(site, written if tidy(written) == written else "")


def home_with(site: Site, key: str) -> Home:
    """The home that a key opens, however it is typed; raises NotFound or Gone."""
    found = site.store.home(tidy(key) or "")
    if isinstance(found, Home):
        return found
    raise NotFound if found is None else Gone
