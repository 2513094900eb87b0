"""How often does the search find the right article, and see the danger, for phrases in a file?

Run it as `python -m benchmarks.search_quality [PHRASES [ARTICLES]]`; without PHRASES the tests' own are asked.
PHRASES is a table with tabs and the columns id, query, label, also_ok; `also_ok` holds further right answers,
parted by commas. A label counts among "existing" if there is an article of that name.
With `-v` every phrase that was not answered first comes with what was found instead.
"""

import csv
import sys
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from kb.library import load
from kb.search import Finder, Found, build

DANGEROUS = ("gas-smell", "carbon-monoxide")
ARTICLES = Path(__file__).parents[1] / "articles" / "en"
PHRASES = Path(__file__).parents[1] / "tests" / "kb" / "search" / "phrases.tsv"


@dataclass(frozen=True, slots=True)
class Phrase:
    id: str
    query: str
    label: str
    right: frozenset[str]


@dataclass(frozen=True, slots=True)
class Answered:
    phrase: Phrase
    found: Found

    def within(self, first: int) -> bool:
        return any(hit.article in self.phrase.right for hit in self.found.hits[:first])


def read(path: Path) -> list[Phrase]:
    with path.open(encoding="utf-8", newline="") as file:
        rows = csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE)
        return [_phrase(row) for row in rows]


def _phrase(row: dict[str, str]) -> Phrase:
    also = filter(None, (row["also_ok"] or "").split(","))
    return Phrase(row["id"], row["query"], row["label"], frozenset({row["label"], *also}))


def ask(finder: Finder, phrases: Iterable[Phrase]) -> list[Answered]:
    return [Answered(phrase, finder.find(phrase.query)) for phrase in phrases]


def share(count: int, of: int) -> str:
    return f"{count:4}/{of:<4}{100 * count / of:6.1f} %" if of else "   -"


def print_ranks(answers: Sequence[Answered]) -> None:
    by_label: defaultdict[str, list[Answered]] = defaultdict(list)
    for answered in answers:
        by_label[answered.phrase.label].append(answered)
    print(f"{'category':20}{'first right':>18}{'in first three':>18}")
    for label, group in [*sorted(by_label.items()), ("all of these", list(answers))]:
        first, three = (sum(answered.within(count) for answered in group) for count in (1, 3))
        print(f"{label:20}{share(first, len(group)):>18}{share(three, len(group)):>18}")


def print_danger(answers: Sequence[Answered]) -> None:
    dangerous = [answered for answered in answers if answered.phrase.label in DANGEROUS]
    others = [answered for answered in answers if answered.phrase.label not in DANGEROUS]
    seen = sum(bool(answered.found.danger) for answered in dangerous)
    alarmed = [answered for answered in others if answered.found.danger]
    print(f"danger seen on gas-smell and carbon-monoxide {share(seen, len(dangerous))}")
    print(f"danger shown on the others                   {share(len(alarmed), len(others))}")
    for answered in (*(a for a in dangerous if not a.found.danger), *alarmed):
        print(f"  {answered.phrase.label}: {answered.found.danger or 'MISSED'} {answered.phrase.query}")


def print_misses(answers: Iterable[Answered]) -> None:
    for answered in answers:
        if not answered.within(1):
            hits = ", ".join(f"{hit.article} {hit.score}" for hit in answered.found.hits[:4])
            print(f"{answered.phrase.id} {answered.phrase.label}: {answered.phrase.query} -> {hits}")


def main(arguments: Sequence[str]) -> None:
    places = [Path(argument) for argument in arguments if argument != "-v"]
    phrases, articles = [*places, *(PHRASES, ARTICLES)[len(places) :]]
    library = load(articles)
    answers = ask(build(library), read(phrases))
    existing = [answered for answered in answers if answered.phrase.label in library.articles]
    for name, group in (("labels that have an article", existing), ("all labels", answers)):
        print(f"\n== {name}")
        print_ranks(group)
    print()
    print_danger(answers)
    if "-v" in arguments:
        print_misses(existing)


if __name__ == "__main__":
    main(sys.argv[1:])
