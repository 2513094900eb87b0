"""What a page with a card on it shows."""

from dataclasses import dataclass
from typing import ClassVar

from server.staff.pages import StaffFrame
from server.web.pages import Page


@dataclass(frozen=True, slots=True)
class Way:
    """Somewhere to go on to."""

    words: str
    address: str


@dataclass(frozen=True, slots=True)
class SizeLink:
    """A size to choose; `chosen` is the one that is shown."""

    words: str
    address: str
    chosen: bool


@dataclass(frozen=True, slots=True)
class Picture:
    """One side: its name, where its drawing lies, all that stands on it in words, and its extent on the page."""

    side: str
    address: str
    words: str
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Wrong:
    """Why there is no card: the field, in words and by its name, what was found, what to do, and where."""

    field: str
    name: str
    found: str
    remedy: str
    mend: str


@dataclass(frozen=True, slots=True)
class CardPage(Page):
    """A home's card in one size: both sides and the way to the PDF, or what stands in the way of it."""

    template: ClassVar[str] = "card_page.html.j2"
    frame: StaffFrame
    about: str
    size: str
    sizes: tuple[SizeLink, ...]
    pictures: tuple[Picture, ...]
    pdf: str
    sheet: str
    left_out: tuple[str, ...]
    wrong: tuple[Wrong, ...]
    back: Way
