"""reading-grade: what a household reads is easy to read

It is read at six in the morning, in the cold, on a phone, by somebody whose first language may be another.

No sentence is longer than twenty words; twelve is better.
The running text of an article for households, intro, steps and ends, has a Flesch-Kincaid grade of at most 8; aim
for 4 or 5.
Titles and answers are short and would flatter the grade, so they count only for the length of their sentences.
The orders of a region are held to the length as well.

Split the sentence, one action each.
Use the shorter word.

```good
### Is the light on?

Look at the front of the boiler. The light is small and green.

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 1
### Is the light on?

Look at the front of the boiler, and if the small green light that is next to the dial is not lit, press it.

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 1
### Is the light on?

Unsatisfactory illumination necessitates immediate investigation.
Investigate alternative electricity distribution possibilities systematically.
Subsequently communicate comprehensive observations telephonically.

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 1
### Is the light on?

- [Yes, but it was off this morning when I came in and then it came on by itself at ten or so](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```
"""

from collections.abc import Iterator
from datetime import date
from typing import Final

from kb.article import Article, Audience
from kb.findings import Finding
from kb.library import Library
from kb.reading import counts, sentences, words
from kb.rules._paths import file_line
from kb.rules._texts import Role, household_units, units

HARDEST: Final = 8.0
"""The highest Flesch-Kincaid grade that a household's text may have."""

LONGEST: Final = 20
"""The most words that a sentence for a household may have."""


def check(library: Library, today: date) -> Iterator[Finding]:
    """Sentences that are too long, and articles that are too hard."""
    for unit in household_units(library):
        for text in unit.texts:
            for sentence in sentences(text.words):
                if len(words(sentence)) > LONGEST:
                    found = f"{sentence!r} has {len(words(sentence))} words."
                    yield Finding(text.place, "reading-grade", found, f"Split it: {LONGEST} words at the very most.")
    for article in library.articles.values():
        grade = counts(household_prose(article)).grade
        if grade > HARDEST:
            found = f"The household's text has the reading grade {grade:.1f}."
            remedy = f"Use shorter words and sentences: {HARDEST:g} at most, 4 or 5 is right."
            yield Finding(file_line(article), "reading-grade", found, remedy)


def household_prose(article: Article) -> str:
    """The running text of an article for households, whose grade is held against it."""
    prose = (
        text.words for unit in units(article, Audience.HOUSEHOLD) for text in unit.texts if text.role is Role.PROSE
    )
    return "\n".join(prose)
