"""Milliseconds for a card, from a home to its PDF, for homes of one firm that differ in all their own words.

The first card also loads the fonts and is told apart; a card after it is to take less than 30 ms.
An empty Typst page is timed in turn with the cards: it takes 0.5 ms here when nothing else runs, so that a
higher figure tells how much of the rest is the machine's noise.

Then 500 cards on sheets of A4 in one file, as `tundish cards --sheet` prints them, for homes whose places differ in
words and length: in less than 5 s after the start, and in memory that does not grow with their number.
"""

import resource
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import partial
from itertools import cycle, islice
from pathlib import Path
from random import Random
from typing import TypeVar

import typst

from demo import load as demo
from kb import keys
from kb.card import Card, Size, card_of, pdf, png
from kb.facts import GaugeMarks
from kb.firm import read_firm
from kb.home import Home
from kb.library import load
from kb.logo import read_logo
from kb.ranges import load_ranges
from kb.search import build
from server.printing import Wanted, print_cards
from server.site import Site
from server.store import Store
from server.store.upgrade import migrate

Result = TypeVar("Result")

CARDS = 200
MANY = 500
MOST_S = 5.0
WORDS = (
    *("in the", "hall", "cupboard", "under", "stairs", "by the", "front", "back", "door", "left of", "sink"),
    *("kitchen", "white", "grey", "box", "outside", "on the", "wall"),
)
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


def differing(count: int) -> list[Home]:
    """Homes whose places differ in words and length, from two words to six."""
    random = Random(4)
    several = list(islice(cycle(homes()), count))
    return [
        replace(
            another(home, n),
            appliance=f"{home.appliance} {n % 7}",
            places={place: " ".join(random.choices(WORDS, k=random.randint(2, 6))) for place in home.places},
        )
        for n, home in enumerate(several)
    ]


def site(folder: Path) -> Site:
    library = load(ARTICLES)
    ranges, _ = load_ranges(demo.RANGES)
    firm, _ = read_firm("firm.toml", demo.FIRM.read_text(encoding="utf-8"))
    logo, _ = read_logo("logo.svg", (demo.FOLDER / "logo.svg").read_bytes())
    assert firm is not None
    migrate(f"sqlite:///{folder / 'homes.db'}")
    return Site(library, build(library), firm, ranges, Store(f"sqlite:///{folder / 'homes.db'}"), logo=logo)


def many(size: Size) -> None:
    """In a folder of numbered files first; then the same parts joined into one file."""
    with tempfile.TemporaryDirectory() as name:
        wanted, here = Wanted(differing(MANY), size, True), site(Path(name))
        for to in ("cards", "cards.pdf"):
            before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
            began, cpu = time.perf_counter(), time.process_time()
            refused = print_cards(here, wanted, Path(name) / to, lambda count: None)
            took, cpu = time.perf_counter() - began, time.process_time() - cpu
            peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
            print(
                f"{MANY} cards, {size} on sheets, {to:9}: {took:.1f} s, processor {cpu:.1f} s, "
                f"{len(refused)} refused, memory {before:.0f} to {peak:.0f} MB, "
                f"under {MOST_S:g} s: {'kept' if took < MOST_S else 'MISSED'}"
            )


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
        f"99 of 100 under {ordered[int(len(ordered) * 0.99) - 1]:5.1f} ms, best {ordered[0]:5.1f} ms"
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
    before, cpu = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss, time.process_time()
    for n, home in enumerate(islice(cycle(homes()), CARDS)):
        renewed = another(home, n)
        card = timed(partial(make, renewed), values)
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
    say("an empty Typst page", empty)
    print(f"processor {cpu:.1f} ms a card; {grown:.0f} MB grown in {CARDS} cards")
    print(f"a side as PNG {max(shown):.0f} ms; a PDF {len(printed) / 1024:.0f} KB")
    verdict = "kept" if statistics.median(whole) < MOST_MS else "MISSED"
    print(f"under {MOST_MS:.0f} ms a card: {verdict}")


if __name__ == "__main__":
    if len(sys.argv) == 1:
        main()
        many("a6")
    for chosen in ("a6", "id1", "a5"):
        if chosen in sys.argv[1:]:
            many(chosen)
