"""card-lines: the lines for the printed card are few, short, and safe on their own

The card hangs by the boiler for ten years and is read without any of the questions before it.

A fault with `often` has two or three lines under `### On the card`, in its household part, as a list, each of at
most 90 characters.
No other article is on a card, so none has such lines.
A line that asks for something limited says in the same line how often: once, twice, at most.

```good in card
- With the boiler cold, the needle belongs between the marks.
- Top up once, boiler off. Then shut both taps.
```

```bad 1 in card
- With the boiler cold, the needle belongs between the marks.
```

```bad 1 in card
- With the boiler cold, and the radiators cold as well, the needle belongs between the two coloured marks.
- Ring us if it stays cold.
```

```bad 1 in card
- Press reset.
- Ring us if it stays cold.
```

```bad 1 in card
Keep the switch on.

Ring us if it stays cold.
```

```bad 1 in file other.md
---
title: How to look
kind: how-to
also-said: [look, seeing]
reviewed: 2026-01-10
sources: ["common practice: looking"]
---

# How to look

## For the household

### Look

- [It is done](ends.md#an-engineer-today)

### On the card

- Look once.
```
"""

import re
from collections.abc import Iterator
from datetime import date
from typing import Final

from kb.acts import limited_acts
from kb.article import Article
from kb.findings import Finding
from kb.library import Library
from kb.prose import Shape
from kb.rules._paths import file_line
from kb.rules._texts import Text, card_lines

LONGEST: Final = 90
"""The most characters that a line of the card can hold at its size."""

_HOW_OFTEN: Final = re.compile(r"\b(?:once|twice|one|two|at most)\b", re.IGNORECASE)


def check(library: Library, today: date) -> Iterator[Finding]:
    """Lines that are too few, too many, too long, on no card, or ask for something limited without its limit."""
    for article in library.articles.values():
        if article.header.often is not None:
            yield from _count(article)
        elif article.card:
            found = "This article has lines for the card and is on none."
            yield Finding(article.card[0].place, "card-lines", found, "Take the section `### On the card` out.")
        for line in card_lines(article):
            yield from _line(line)


def _count(article: Article) -> Iterator[Finding]:
    lines = card_lines(article)
    listed = all(block.shape in {Shape.BULLETS, Shape.NUMBERS} for block in article.card)
    if not 2 <= len(lines) <= 3 or not listed:
        place = lines[0].place if lines else file_line(article)
        found = f"The fault has {len(lines)} lines for the card." if listed else "The card's lines are no list."
        yield Finding(place, "card-lines", found, "Write two or three lines as a list under `### On the card`.")


def _line(line: Text) -> Iterator[Finding]:
    if len(line.words) > LONGEST:
        found = f"{line.words!r} has {len(line.words)} characters."
        yield Finding(line.place, "card-lines", found, f"Say it in {LONGEST}.")
    if any(limited_acts(line.words)) and not _HOW_OFTEN.search(line.words):
        found = f"{line.words!r} asks for something limited and does not say how often."
        yield Finding(line.place, "card-lines", found, "Say `once`, `twice` or `at most` in the same line.")
