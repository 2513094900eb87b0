"""From settings to a site that can serve, or everything that stands in the way of it."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import partial

from kb.findings import Finding, Place
from kb.firm import Firm, read_firm
from kb.library import Library, load
from kb.logo import LARGEST, Logo, read_logo
from kb.ranges import check_ranges, load_ranges
from kb.rules import check
from kb.search import build
from server.earlier import Earlier, texts_in
from server.settings import Settings
from server.site import Site
from server.store import Store


class CannotServe(Exception):
    """Something that an author or the firm must mend first; every finding is named."""

    def __init__(self, findings: tuple[Finding, ...]) -> None:
        """Say what must be mended."""
        self.findings = findings
        listed = "\n".join(str(finding) for finding in findings)
        super().__init__(
            f"Expected articles, ranges and a firm's file without faults, found these:\n{listed}\nMend them."
        )


def open_firm(settings: Settings) -> Firm:
    """The firm's file, held whole; raises CannotServe with everything that is wrong in it."""
    try:
        text = settings.firm.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        found = f"The firm's file {settings.firm} cannot be read."
        raise CannotServe((Finding(Place(settings.firm.name, 1), "firm", found, "Name the right file."),)) from None
    firm, findings = read_firm(settings.firm.name, text)
    if firm is None:
        raise CannotServe(findings)
    return firm


def open_logo(settings: Settings, firm: Firm) -> tuple[Logo | None, tuple[Finding, ...]]:
    """The logo that the firm's file names, from beside it, or why it cannot be printed; none if it names none."""
    if firm.logo is None:
        return None, ()
    path = settings.firm.with_name(firm.logo)
    try:
        with path.open("rb") as file:
            return read_logo(firm.logo, file.read(LARGEST + 1))
    except OSError:
        found = f"There is no file {firm.logo} that can be read beside {settings.firm.name}."
        remedy = "Put the logo there, or take the field 'logo' out."
        return None, (Finding(Place(settings.firm.name, 1), "firm", found, remedy),)


def open_library(settings: Settings, today: date) -> Library:
    """The articles, checked; raises CannotServe for findings that hold an article back."""
    library = load(settings.articles)
    findings = tuple(finding for finding in check(library, today) if finding.holds_back)
    if findings:
        raise CannotServe(findings)
    return library


def open_site(settings: Settings, today: date) -> Site:
    """A site ready to serve; the database must be there already."""
    return read_site(settings, today)(Store(settings.database))


def read_site(settings: Settings, today: date) -> Callable[[Store], Site]:
    """All of a site but its store, read and checked, ready for the store it is to serve from."""
    firm = open_firm(settings)
    library = open_library(settings, today)
    ranges, findings = load_ranges(settings.ranges)
    findings += check_ranges(ranges.values(), [article.id for article in library.faults()])
    if firm.region not in library.regions:
        found = f"There is no profile of the region {firm.region}."
        findings += (
            Finding(Place(settings.firm.name, 1), "firm", found, f"Choose from {', '.join(library.regions)}."),
        )
    logo, wrong_logo = open_logo(settings, firm)
    findings += wrong_logo
    if findings:
        raise CannotServe(findings)
    return partial(Site, library, build(library), firm, ranges, logo=logo)


def remembered(site: Site, settings: Settings) -> Site:
    """The site with its articles kept for the day when they have changed, and with those that were served before."""
    libraries = site.store.libraries
    served = libraries.keep(texts_in(settings.articles), site.now())
    return replace(site, earlier=Earlier(libraries, served))
