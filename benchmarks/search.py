"""How long do a search and the building of its index take, with this library and with five hundred articles?

Run it as `python benchmarks/search.py [SEED]`.
The articles that are made up borrow their words from the real ones, so that each word stands in many of them.
"""

import random
import sys
from collections.abc import Callable, Iterator, Sequence
from datetime import date
from pathlib import Path
from statistics import median, quantiles
from time import perf_counter, thread_time

from kb.article import Article, Audience, Step
from kb.findings import Place
from kb.header import Header, Kind
from kb.library import Library, load
from kb.library import build as library_of
from kb.prose import Block, Shape, Span
from kb.search import Finder, build

ARTICLES = Path(__file__).parents[1] / "articles" / "en"
MADE_UP = 500
SEARCHES = 2_000
STEPS, WORDS_IN_A_STEP = 12, 60
LONG = 10_000


def words_of(library: Library) -> list[str]:
    texts = (block.text for step in library.steps() for block in step.body)
    said = (phrase for article in library.articles.values() for phrase in article.header.also_said)
    return [word for text in (*texts, *said) for word in text.split()]


def made_up(number: int, words: Sequence[str], chance: random.Random) -> Article:
    name, place = f"made-up-{number}", Place("made-up.md", 1)

    def phrase(length: int) -> str:
        return " ".join(chance.choices(words, k=length))

    header = Header.model_validate(
        {
            "title": phrase(6)[:150],
            "kind": Kind.HOW_TO,
            "reviewed": date(2026, 11, 25),
            "also-said": [phrase(5)[:150] for _ in range(15)],
        }
    )
    body = [Block(Shape.PARAGRAPH, ((Span(phrase(WORDS_IN_A_STEP)),),), place) for _ in range(STEPS)]
    steps = [Step(name, f"s{at}", phrase(5), Audience.HOUSEHOLD, (block,), (), place) for at, block in enumerate(body)]
    return Article(name, "made-up.md", header, (), (), tuple(steps), (), (), (), ())


def queries(library: Library, chance: random.Random) -> Iterator[str]:
    said = [phrase for article in library.articles.values() for phrase in article.header.also_said]
    for number in range(SEARCHES):
        query = " ".join(chance.sample(said, chance.choice((1, 1, 2, 3))))
        # A number nobody typed before keeps any cache of whole searches from answering.
        yield f"{query} {number}"


def timed(finder: Finder, asked: Sequence[str], clock: Callable[[], float]) -> list[float]:
    times = []
    for query in asked:
        start = clock()
        finder.find(query)
        times.append((clock() - start) * 1000)
    return times


def report(name: str, library: Library, asked: Sequence[str], long: str) -> None:
    start = perf_counter()
    finder = build(library)
    built = (perf_counter() - start) * 1000
    count = len(library.articles)
    print(f"{name}: {count} articles")
    print(f"  index built in {built:8.1f} ms, {built / count:6.2f} ms an article, vocabulary included")
    # On a busy machine the wall's clock also counts other work; the processor's counts only ours.
    for what, clock in (("by the wall", perf_counter), ("of processor", thread_time)):
        times = timed(finder, asked, clock)
        slowest = quantiles(times, n=100)[98]
        print(f"  a search       {median(times):8.2f} ms median, {slowest:6.2f} ms at the 99th percentile, {what}")
    print(f"  {len(long)} letters  {max(timed(finder, [long] * 5, perf_counter)):8.2f} ms at most")


def main(seed: int) -> None:
    chance = random.Random(seed)
    library = load(ARTICLES)
    words = words_of(library)
    asked = list(queries(library, chance))
    long = " ".join(chance.choices(words, k=LONG // 5))[:LONG]
    report("this library", library, asked, long)
    more = [made_up(number, words, chance) for number in range(MADE_UP - len(library.articles))]
    report("made up", library_of([*library.articles.values(), *more]), asked, long)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1)
