"""How does a card become a PDF or a picture?

The only module that knows Typst.
"""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any, Final, Literal

import typst

from kb.card import layout
from kb.card.fit import Reach, Trial
from kb.card.layout import Job
from kb.card.sizes import BOTH, SLACK_MM, Side
from kb.card.value import Card

STANDARD: Final = "ua-1"
"""PDF/UA-1 (ISO 14289-1): tags, a title, a language, and words for every picture."""

_PREVIEW_DPI: Final = 200
_GENERATIONS: Final = 12
_REINSTALL: Final = "Install Tundish again, then print the card once more."
_INSTALL_FONTS: Final = "Install it with `pip install fontpkg-atkinson-hyperlegible`."


class CardError(Exception):
    """The card could not be printed, and the fault is ours or the machine's, not a writer's.

    The message says what was expected, what was found and what to do next.
    """


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF, and how much room each side of each of its cards leaves above its foot, in millimetres."""

    pdf: bytes
    left: tuple[Mapping[Side, float], ...]

    def sits(self, card: int) -> bool:
        """Whether each side of a card ends on that card."""
        return all(left >= -SLACK_MM for left in self.left[card].values())


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
        self._last: tuple[Card, Printed] | None = None

    def pdf(self, card: Card) -> bytes:
        """The card as tagged PDF of two pages; the same card gives the same bytes."""
        return self._alone(card).pdf

    def sits(self, card: Card) -> bool:
        """Whether each side of the printed card ends on its own page, above the foot."""
        return self._alone(card).sits(0)

    def left(self, card: Card) -> Mapping[Side, float]:
        """How many millimetres each side of the printed card leaves above its foot, less than 0 if it is too long."""
        return self._alone(card).left[0]

    def printed(self, cards: Sequence[Card], sheets: bool = False) -> Printed:
        """Cards of one firm and one size in one tagged PDF, two pages each or on sheets of A4.

        What is remembered of them is let go of at once, so that many such PDFs take no more memory than one.
        """
        done = self._printed(cards, Job(sheets=sheets))
        for _ in range(_GENERATIONS if len(cards) > 1 else 0):
            self._forget()
        return done

    def picture(self, card: Card, side: Side, dpi: int = _PREVIEW_DPI) -> bytes:
        """One side of the card as pixels.

        Typst's SVG would carry the drawn gauge as it is, and a browser would set its letters in another typeface.
        """
        return self._compiled(self._compiler(layout.inputs((card,), Job((side,)))), "png", dpi)

    def tried(self, card: Card, sides: tuple[Side, ...] = BOTH) -> Trial:
        """How these sides of the card come out at their sizes."""
        told = self._told(layout.inputs((card,), Job(sides, trial=True)))
        return Trial({side: Reach(**reach) for side, reach in told["sides"].items()}, told["too-wide"])

    def heights(self, card: Card) -> Mapping[str, float]:
        """The height of each text of both sides, in millimetres, at the card's sizes."""
        told = self._told(layout.inputs((card,), Job(trial=True, tell=True)))
        return {text: height for side in told["heights"].values() for text, height in side.items()}

    def lacks(self, text: str) -> str:
        """The letters of a text that the typeface does not have."""
        if text.isascii():
            return ""
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

    def _alone(self, card: Card) -> Printed:
        """The printed card, kept until the next one, since a card is looked at just before it is handed out."""
        last = self._last
        if last is None or last[0] != card:
            self._last = last = (card, self._printed((card,), layout.PRINT))
        return last[1]

    def _printed(self, cards: Sequence[Card], job: Job) -> Printed:
        compiler = self._compiler(layout.inputs(cards, job))
        pdf = self._compiled(compiler, "pdf")
        ends = json.loads(compiler.query("<end>", field="value"))
        left: list[dict[Side, float]] = [{} for _ in cards]
        for end in ends:
            left[end["card"]][end["side"]] = end["left"]
        return Printed(pdf, tuple(left))

    def _compiler(self, inputs: dict[str, str]) -> typst.Compiler:
        return typst.Compiler(
            str(self._template), root=str(self._template.parent), font_paths=self._fonts, sys_inputs=inputs
        )

    def _compiled(self, compiler: typst.Compiler, form: Literal["pdf", "png"], dpi: int = _PREVIEW_DPI) -> bytes:
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
            self._forget()
        return told

    def _forget(self) -> None:
        """Let Typst let go of what it has not used for a while, which it does only as it compiles."""
        typst.Compiler(b"", font_paths=self._fonts).compile(format="svg")


@cache
def press() -> Press:
    """The press that everybody shares: the first card pays for its fonts.

    Raises CardError.
    """
    return Press()


def pdf(card: Card) -> bytes:
    """The card as tagged PDF, two pages of its size.

    Raises CardError.
    """
    return press().pdf(card)


def png(card: Card, side: Side, dpi: int = _PREVIEW_DPI) -> bytes:
    """One side of the card as pixels, the same drawing as in print.

    Raises CardError.
    """
    return press().picture(card, side, dpi)


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
