"""500 cards on sheets of A4, as `tundish cards --sheet` prints them, into a folder and into one PDF.

Wanted: less than 5 s after the start, in memory that does not grow with their number.
Printed by one process and by helpers in turn, and the best of each is told, since other programs share the machine.
The seconds of the processor are those of all processes together, and the memory is the most that each ever held.
Name a size, `a6`, `id1` or `a5`; without one it is A6.
"""

# Helpers load this module as well, so what it needs is imported where it is needed.
import shutil
import sys
import tempfile
import time
from pathlib import Path

MANY = 500
MOST_S = 5.0
ROUNDS = 3
WORDS = (
    *("in the", "hall", "cupboard", "under", "stairs", "by the", "front", "back", "door", "left of", "sink"),
    *("kitchen", "white", "grey", "box", "outside", "on the", "wall"),
)


def differing(count: int) -> list:
    """Homes whose places differ in words and length, from two words to six."""
    from dataclasses import replace
    from itertools import cycle, islice
    from random import Random

    from benchmarks.card import another, homes

    random = Random(4)
    return [
        replace(
            another(home, n),
            appliance=f"{home.appliance} {n % 7}",
            places={place: " ".join(random.choices(WORDS, k=random.randint(2, 6))) for place in home.places},
        )
        for n, home in enumerate(islice(cycle(homes()), count))
    ]


def site(folder: Path):
    from benchmarks.card import ARTICLES
    from demo import load as demo
    from kb.firm import read_firm
    from kb.library import load
    from kb.logo import read_logo
    from kb.ranges import load_ranges
    from kb.search import build
    from server.site import Site
    from server.store import Store
    from server.store.upgrade import migrate

    library = load(ARTICLES)
    ranges, _ = load_ranges(demo.RANGES)
    firm, _ = read_firm("firm.toml", demo.FIRM.read_text(encoding="utf-8"))
    logo, _ = read_logo("logo.svg", (demo.FOLDER / "logo.svg").read_bytes())
    assert firm is not None
    address = f"sqlite:///{folder / 'homes.db'}"
    migrate(address)
    return Site(library, build(library), firm, ranges, Store(address), logo=logo)


def spent() -> float:
    """Seconds of the processor of this process and of all helpers that ended."""
    import resource

    used = [resource.getrusage(whose) for whose in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)]
    return sum(each.ru_utime + each.ru_stime for each in used)


def held() -> tuple[float, float]:
    """The most megabytes that this process held, and the most of any helper."""
    import resource

    own, helpers = (resource.getrusage(whose).ru_maxrss for whose in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return own / 1024, helpers / 1024


def once(here, wanted, to: Path, helpers: int) -> tuple[float, float]:
    """Seconds by the clock and of the processor."""
    from server.printing import print_cards

    began, cpu = time.perf_counter(), spent()
    refused = print_cards(here, wanted, to, lambda count: None, helpers)
    took = time.perf_counter() - began, spent() - cpu
    assert not refused, refused[:3]
    return took


def main(size: str) -> None:
    from server.helpers import MOST, cores
    from server.printing import Wanted

    # Helpers come first: what one process holds for the cards would count as this one's from then on.
    counts = sorted({1, min(cores(), MOST)}, reverse=True)
    with tempfile.TemporaryDirectory() as name:
        here, wanted = site(Path(name)), Wanted(differing(MANY), size, True)
        targets = (Path(name) / "cards", Path(name) / "cards.pdf")
        runs = [(to, count) for count in counts for to in targets]
        found: dict[tuple[Path, int], list[tuple[float, float]]] = {run: [] for run in runs}
        memory: dict[tuple[Path, int], tuple[float, float]] = {}
        for run in runs * ROUNDS:
            found[run].append(once(here, wanted, *run))
            memory.setdefault(run, held())
            clear(run[0])
        for run in runs:
            told(size, *run, found[run], memory[run])


def clear(to: Path) -> None:
    shutil.rmtree(to) if to.is_dir() else to.unlink()


def told(size: str, to: Path, helpers: int, found: list[tuple[float, float]], memory: tuple[float, float]) -> None:
    took, cpu = min(found)[0], min(each[1] for each in found)
    by = f"{helpers} helpers, each at most {memory[1]:.0f} MB" if helpers > 1 else "one process"
    verdict = "kept" if took < MOST_S else "MISSED"
    print(
        f"{MANY} cards, {size} on sheets, {to.name:9} by {by}: best {took:.1f} s, processor {cpu:.1f} s, "
        f"{memory[0]:.0f} MB here; under {MOST_S:g} s: {verdict}"
    )


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else "a6")
