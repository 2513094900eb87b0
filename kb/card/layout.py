"""Which sizes, colours and words does the template lay out, for one card or for many?"""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any, Final

from kb.card import dial, gauge, palette, qr, sheet, words
from kb.card.sizes import BOTH, FORMATS, STEP_PT, Side
from kb.card.value import Card

TEMPLATE: Final = Path(__file__).with_name("card.typ")
"""The layout itself, with its parts beside it; it holds no words, no colours and no sizes of letters of its own."""

FAMILY: Final = "Atkinson Hyperlegible"


@dataclass(frozen=True, slots=True)
class Job:
    """What the template is to do: print these sides, on sheets or not, or only tell how far they would reach.

    With `tell` a trial says so of each text.
    """

    sides: tuple[Side, ...] = BOTH
    sheets: bool = False
    trial: bool = False
    tell: bool = False


PRINT: Final = Job()


def inputs(cards: Sequence[Card], job: Job = PRINT) -> dict[str, str]:
    """What the template is given: what the cards share, their words as JSON, and their drawings as SVG.

    The cards must be of one firm and one size.
    """
    logo = cards[0].firm.logo
    return {
        "look": json.dumps(_look(cards, job)),
        "cards": json.dumps([_one(card, job) for card in cards]),
        "logo": logo.svg if logo and not job.trial else "",
    }


def _look(cards: Sequence[Card], job: Job) -> dict[str, Any]:
    card, format = cards[0], FORMATS[cards[0].size]
    logo = card.firm.logo
    return {
        "title": card.title if len(cards) == 1 else words.CARDS_TITLE.format(firm=card.firm.name),
        "language": card.language,
        "size": card.size,
        "family": FAMILY,
        "page": format.page,
        "margin": format.margin,
        "caption": format.captions,
        "least_gap": format.least_gap,
        "drawings": {
            "gauge": (format.gauge, format.gauge * dial.HEIGHT / dial.WIDTH),
            "qr": (format.qr, format.qr),
            "logo": logo.within(*format.logo) if logo else None,
        },
        "step": STEP_PT,
        "sizes": {name: {"most": most, "least": least} for name, (most, least) in format.lines.items()},
        "colours": {name.lower(): value for name, value in vars(palette).items() if str(value).startswith("#")},
        "sheet": _sheet(card) if job.sheets else None,
        **asdict(job),
    }


def _sheet(card: Card) -> dict[str, Any]:
    places = sheet.cells(card.size)
    return {
        "page": sheet.A4,
        "up": sheet.up(card.size),
        "cells": {side: [asdict(cell) for cell in cells] for side, cells in places.items()},
        "marks": sheet.cut_marks(card.size),
    }


def _one(card: Card, job: Job) -> dict[str, Any]:
    """One card with the words that stand with its pictures, or for them when the card is read out."""
    told = asdict(card)
    # The logo's own drawing is handed over once.
    del told["firm"]["logo"]
    marked = f"{gauge.TITLE}. {gauge.described(card.marks)}" if card.marks else ""
    told |= {
        "quiet": qr.QUIET_ZONE * qr.module_mm(card.page, FORMATS[card.size].qr),
        "gauge_alt": marked,
        "scale": _scale(card),
        "qr_alt": words.QR_ALT.format(page=card.page),
        "logo_alt": words.LOGO_ALT.format(firm=card.firm.name),
        "type": words.TYPE,
        "demo_word": words.DEMO_WORD,
    }
    return told if job.trial else told | _drawings(card)


def _scale(card: Card) -> dict[str, Any] | None:
    """The marks in words and figures, and how far along from low to high the aim is, for letters beyond a dial."""
    marks = card.marks
    if marks is None:
        return None
    figures = {"low": marks.low, "aim": marks.aim, "high": marks.high}
    told = {name: f"{name} {dial.figure(bar)}" for name, bar in figures.items()}
    return {**told, "aim_at": (marks.aim - marks.low) / (marks.high - marks.low)}


def _drawings(card: Card) -> dict[str, str]:
    drawn = gauge.drawn(card.marks) if card.marks and FORMATS[card.size].gauge else ""
    return {"gauge_drawn": drawn, "qr_drawn": qr.drawn(card.page)}
