"""How does a card become a PDF or a picture?

The only module that knows Typst.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Final, Literal, TypeAlias

import typst

from kb.card import layout
from kb.card.fit import Reach, Trial
from kb.card.value import Card, Side

Form: TypeAlias = Literal["png", "svg"]

STANDARD: Final = "ua-1"
"""PDF/UA-1 (ISO 14289-1): tags, a title, a language, and words for every picture."""

_PREVIEW_DPI: Final = 200
_SLACK_MM: Final = 0.01
_REINSTALL: Final = "Install Tundish again, then print the card once more."
_INSTALL_FONTS: Final = "Install it with `pip install fontpkg-atkinson-hyperlegible`."


class CardError(Exception):
    """The card could not be printed, and the fault is ours or the machine's, not a writer's.

    The message says what was expected, what was found and what to do next.
    """


@dataclass(frozen=True, slots=True)
class _Printed:
    """A card, its PDF, and where each side ends."""

    card: Card
    pdf: bytes
    ends: list[dict[str, float]]


class Press:
    """A template and a folder of fonts, ready to print one card after another, in any thread."""

    def __init__(self, fonts: Path | None = None, template: Path = layout.TEMPLATE) -> None:
        """Look for both, so that a machine that lacks one says so before anybody waits for a card.

        Raises CardError.
        """
        self._fonts = _loaded(fonts or _folder())
        if not template.is_file():
            raise CardError(f"Expected the card's template at {template}, found none. {_REINSTALL}")
        self._template = template
        self._lettered: dict[str, bool] = {}
        self._last: _Printed | None = None

    def pdf(self, card: Card) -> bytes:
        """The card as tagged PDF, two pages of A6; the same card gives the same bytes."""
        return self._printed(card).pdf

    def sits(self, card: Card) -> bool:
        """Whether each side of the printed card ends on its own page, above the foot."""
        ends = self._printed(card).ends
        return all(end["page"] == page and end["left"] >= -_SLACK_MM for page, end in enumerate(ends, 1))

    def picture(self, card: Card, side: Side, form: Form = "png", dpi: int = _PREVIEW_DPI) -> bytes:
        """One side of the card as a picture."""
        return self._compiled(self._compiler(layout.inputs(card, (side,))), form, dpi)

    def tried(self, card: Card, sides: tuple[Side, ...] = layout.BOTH) -> Trial:
        """How these sides of the card come out at their sizes."""
        told = self._told(layout.inputs(card, sides, trial=True))
        return Trial({side: Reach(**reach) for side, reach in told["sides"].items()}, told["too-wide"])

    def heights(self, card: Card) -> Mapping[str, float]:
        """The height of each text of both sides, in millimetres, at the card's sizes."""
        told = self._told(layout.inputs(card, trial=True, tell=True))
        return {text: height for side in told["heights"].values() for text, height in side.items()}

    def lacks(self, text: str) -> str:
        """The letters of a text that the typeface does not have."""
        return "".join(sign for sign in dict.fromkeys(text) if not sign.isascii() and not self._has(sign))

    def _has(self, sign: str) -> bool:
        if sign not in self._lettered:
            compiler = typst.Compiler(_letter(sign), font_paths=self._fonts)
            try:
                compiler.compile(format="pdf", pdf_standards=[STANDARD])
                self._lettered[sign] = True
            except typst.TypstError:
                self._lettered[sign] = False
        return self._lettered[sign]

    def _printed(self, card: Card) -> "_Printed":
        """The printed card, kept until the next one, since a card is looked at just before it is handed out."""
        last = self._last
        if last is None or last.card != card:
            compiler = self._compiler(layout.inputs(card))
            pdf = self._compiled(compiler, "pdf")
            self._last = last = _Printed(card, pdf, json.loads(compiler.query("<end>", field="value")))
        return last

    def _compiler(self, inputs: dict[str, str]) -> typst.Compiler:
        return typst.Compiler(
            str(self._template), root=str(self._template.parent), font_paths=self._fonts, sys_inputs=inputs
        )

    def _compiled(self, compiler: typst.Compiler, form: Literal["pdf", "png", "svg"], dpi: int = _PREVIEW_DPI) -> bytes:
        standards: Any = [STANDARD] if form == "pdf" else []
        try:
            output, warnings = compiler.compile_with_warnings(format=form, ppi=dpi, pdf_standards=standards)
        except typst.TypstError as error:
            raise CardError(f"Expected a card, but its layout failed. {_REINSTALL}") from error
        if warnings:
            raise CardError(f"Expected a clean layout, found {len(warnings)} warnings. {_REINSTALL}")
        assert isinstance(output, bytes), "one side, or a PDF, is one file"
        return output

    def _told(self, inputs: dict[str, str]) -> dict[str, Any]:
        """What the template tells of a trial."""
        try:
            told: dict[str, Any] = json.loads(self._compiler(inputs).query("<trial>", field="value", one=True))
        except RuntimeError as error:
            raise CardError(f"Expected a card to measure, but its layout failed. {_REINSTALL}") from error
        finally:
            # Typst lets go of what it remembers only while it compiles; queries alone would fill the memory.
            typst.Compiler(b"", font_paths=self._fonts).compile(format="svg")
        return told


@cache
def press() -> Press:
    """The press that everybody shares: the first card pays for its fonts.

    Raises CardError.
    """
    return Press()


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


def _folder() -> Path:
    try:
        import fontpkg_atkinson_hyperlegible as package
    except ImportError:
        raise CardError(f"Expected the typeface's package, found none. {_INSTALL_FONTS}") from None
    return Path(package.__file__).parent / "files"


def _loaded(folder: Path) -> typst.Fonts:
    """The fonts of a folder and no others, so that every machine prints the same."""
    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)])
    if layout.FAMILY not in fonts.families():
        raise CardError(f"Expected the typeface {layout.FAMILY} in {folder}, found none. {_INSTALL_FONTS}")
    return fonts


def _letter(sign: str) -> bytes:
    settings = f'#set document(title: "-")\n#set text(font: "{layout.FAMILY}", fallback: false)\n'
    return f'{settings}#"\\u{{{ord(sign):x}}}"'.encode()
