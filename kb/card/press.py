"""How does a card become a PDF or a picture?

The only module that knows Typst.
"""

import json
from functools import cache
from pathlib import Path
from threading import Lock
from typing import Any, Final, Literal, TypeAlias

import typst

from kb.card import layout
from kb.card.value import Card, Reason

Side: TypeAlias = Literal["front", "back"]
Form: TypeAlias = Literal["png", "svg"]

STANDARD: Final = "ua-1"
"""PDF/UA-1 (ISO 14289-1): tags, a title, a language, and words for every picture."""

_PREVIEW_DPI: Final = 200
_MISSING_SIGN: Final = "could not be displayed"


class CardError(Exception):
    """The card could not be printed, and the fault is ours or the machine's, not a writer's.

    The message says what was expected, what was found and what to do next.
    """


class Press:
    """A template and a folder of fonts, ready to print one card after another."""

    def __init__(self, fonts: Path | None = None, template: Path = layout.TEMPLATE) -> None:
        """Look for both, so that a machine that lacks one says so before anybody waits for a card.

        Raises CardError.
        """
        folder = fonts or _fonts()
        _expect_fonts(folder)
        if not template.is_file():
            raise CardError(f"Expected the card's template at {template}, found none. {_REINSTALL}")
        self._lock = Lock()
        self._last: tuple[Card, bytes] | None = None
        self._compiler = typst.Compiler(
            str(template), root=str(template.parent), font_paths=[str(folder)], ignore_system_fonts=True
        )

    def pdf(self, card: Card) -> bytes:
        """The card as tagged PDF, two pages of A6; the same card gives the same bytes."""
        with self._lock:
            return self._printed(card)

    def picture(self, card: Card, side: Side, form: Form = "png", dpi: int = _PREVIEW_DPI) -> bytes:
        """One side of the card as a picture."""
        with self._lock:
            return self._compiled(layout.inputs(card, side), form, dpi)

    def unfit(self, card: Card) -> tuple[Reason, ...]:
        """Every text that does not fit at the smallest size allowed, or that the typeface has no letters for."""
        try:
            with self._lock:
                self._printed(card)
                found = json.loads(self._compiler.query("<overflow>", field="value"))
        except _NoLetter as missing:
            return tuple(_without_letters(card, str(missing)))
        return layout.reasons(found, card)

    def _printed(self, card: Card) -> bytes:
        """The PDF, kept until the next one, since a card is measured just before it is printed."""
        if self._last is None or self._last[0] != card:
            self._last = card, self._compiled(layout.inputs(card), "pdf")
        return self._last[1]

    def _compiled(self, inputs: dict[str, str], form: Literal["pdf", "png", "svg"], dpi: int = _PREVIEW_DPI) -> bytes:
        standards: Any = [STANDARD] if form == "pdf" else []
        try:
            output, warnings = self._compiler.compile_with_warnings(
                format=form, ppi=dpi, sys_inputs=inputs, pdf_standards=standards, timestamp=0
            )
        except typst.TypstError as error:
            if _MISSING_SIGN in error.message:
                raise _NoLetter(error.message) from error
            raise CardError(f"Expected a card, but the layout failed. {_REINSTALL}") from error
        if warnings:
            raise CardError(f"Expected a clean layout, found {len(warnings)} warnings. {_REINSTALL}")
        assert isinstance(output, bytes), "one side, or a PDF, is one file"
        return output


class _NoLetter(Exception):
    """The typeface has no letter for something; the message quotes it between backticks and quotes."""


_REINSTALL: Final = "Install Tundish again, then print the card once more."


def pdf(card: Card) -> bytes:
    """The card as tagged PDF, two pages of A6.

    Raises CardError.
    """
    return press().pdf(card)


def picture(card: Card, side: Side, form: Form = "png", dpi: int = _PREVIEW_DPI) -> bytes:
    """One side of the card as a picture.

    Raises CardError.
    """
    return press().picture(card, side, form, dpi)


@cache
def press() -> Press:
    """The press that everybody shares: the first card pays for its fonts.

    Raises CardError.
    """
    return Press()


def _fonts() -> Path:
    try:
        import fontpkg_atkinson_hyperlegible as package
    except ImportError:
        raise CardError(f"Expected the package {_FONT_PACKAGE}, found none. {_INSTALL_FONTS}") from None
    return Path(package.__file__).parent / "files"


_FONT_PACKAGE: Final = "fontpkg-atkinson-hyperlegible"
_INSTALL_FONTS: Final = f"Install it with `pip install {_FONT_PACKAGE}`."


def _expect_fonts(folder: Path) -> None:
    found = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)])
    if layout.FAMILY not in found.families():
        raise CardError(f"Expected the typeface {layout.FAMILY} in {folder}, found none. {_INSTALL_FONTS}")


def _without_letters(card: Card, message: str) -> list[Reason]:
    """The texts that hold what the typeface could not show, which the message quotes."""
    quoted = message.split('"')[1] if message.count('"') > 1 else ""
    fields = [field for field, text in card.texts() if quoted and quoted in text] or ["card"]
    found = f"The typeface of the card has no letters for {quoted!r}."
    return [Reason(field, found, "Write it in Latin letters.") for field in dict.fromkeys(fields)]
