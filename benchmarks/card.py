"""Milliseconds for a card, from a home to its PDF, for homes of one firm that differ in all their own words.

The first card also loads the fonts and is told apart; a card after it is to take less than 30 ms.
The sizes of a card are those of one much like it, which are found by trial once; the first of each kind pays for that.
An empty Typst page is timed in turn with the cards: it takes 0.5 ms here when nothing else runs, so that a
higher figure tells how much of the rest is the machine's noise.
"""

import resource
import statistics
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import partial
from itertools import cycle, islice
from pathlib import Path
from typing import TypeVar

import typst

from demo import load as demo
from kb import keys
from kb.card import Card, card_of, pdf, png
from kb.card.issue import _model
from kb.facts import GaugeMarks
from kb.firm import read_firm
from kb.home import Home
from kb.library import load
from kb.ranges import load_ranges

Result = TypeVar("Result")

CARDS = 200
MOST_MS = 30.0
ARTICLES = Path(__file__).parents[1] / "articles" / "en"


def homes() -> list[Home]:
    return [demo._home(fields) for fields in demo._written() if "revoked" not in fields]


def another(home: Home, n: int) -> Home:
    """A home like this one with its own key, words, places and marks."""
    places = {place: f"{words}, {n}" for place, words in home.places.items()}
    marks = GaugeMarks(0.8, 1.0 + n % 50 / 100, 1.8)
    known = replace(home.known, marks=marks)
    return replace(home, key=keys.make(), appliance=f"{home.appliance} {n}", places=places, known=known)


def maker() -> Callable[[Home], Card]:
    library = load(ARTICLES)
    ranges, _ = load_ranges(demo.RANGES)
    firm, _ = read_firm("firm.toml", demo.FIRM.read_text(encoding="utf-8"))
    assert firm is not None
    today = date.today()

    def make(home: Home) -> Card:
        card = card_of(home, ranges[home.range], firm, library.regions[firm.region], library, today)
        assert isinstance(card, Card), [str(reason) for reason in card.reasons]
        return card

    return make


def timed(work: Callable[[], Result], times: list[float]) -> Result:
    began = time.perf_counter()
    done = work()
    times.append((time.perf_counter() - began) * 1000)
    return done


def say(what: str, times: list[float]) -> None:
    ordered = sorted(times)
    print(
        f"{what:24} median {statistics.median(ordered):5.1f} ms, "
        f"99 of 100 under {ordered[max(0, int(len(ordered) * 0.99) - 1)]:5.1f} ms, best {ordered[0]:5.1f} ms"
    )


def main() -> None:
    make = maker()
    first: list[float] = []
    timed(lambda: pdf(make(homes()[0])), first)
    print(f"{'the first card':24} {first[0]:5.1f} ms")
    values: list[float] = []
    prints: list[float] = []
    shown: list[float] = []
    empty: list[float] = []
    first_of_kind: list[int] = []
    before, cpu = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, time.process_time()
    for n, home in enumerate(islice(cycle(homes()), CARDS)):
        renewed = another(home, n)
        kinds = _model.cache_info().misses
        card = timed(partial(make, renewed), values)
        if _model.cache_info().misses > kinds:
            first_of_kind.append(n)
        printed = timed(partial(pdf, card), prints)
        timed(partial(typst.compile, b"=", format="svg", ignore_system_fonts=True), empty)
    cpu = (time.process_time() - cpu) * 1000 / CARDS
    grown = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024
    for side in ("front", "back"):
        timed(lambda side=side: png(card, side), shown)
    whole = [value + printing for value, printing in zip(values, prints, strict=True)]
    say("the value, fitted", values)
    say("the PDF", prints)
    say("a card", whole)
    say("of a kind seen before", [each for n, each in enumerate(whole) if n not in first_of_kind])
    say("the first of its kind", [whole[n] for n in first_of_kind])
    say("an empty Typst page", empty)
    print(f"processor {cpu:.1f} ms a card; {grown:.0f} MB grown in {CARDS} cards")
    print(f"a side as PNG {max(shown):.0f} ms; a PDF {len(printed) / 1024:.0f} KB")
    verdict = "kept" if statistics.median(whole) < MOST_MS else "MISSED"
    print(f"under {MOST_MS:.0f} ms a card: {verdict}")


if __name__ == "__main__":
    main()
