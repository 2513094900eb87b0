"""twice-the-same: no two things go by one name

Two steps with one heading have one anchor, and every link leads to the first of them.
Two answers of a step that come to the same three characters in a trail could be taken for one another; so could
answers of two danger questions, which may all be answered from where the first stands.
A title, or a phrase people use, that belongs to two articles sends half of them to the wrong one.

Change the words of one of the two.

```good
### Is the light on?

- [Yes](#is-the-light-green)
- [No](ends.md#book-a-visit)

### Is the light green?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 1
### Is the light on?

- [Yes](#is-the-light-on)
- [No](ends.md#book-a-visit)

### Is the light on?!

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 1
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
- [yes!](ends.md#book-a-visit)
```

```bad 2 in file other.md
---
title: The boiler  is cold
kind: how-to
also-said: [no warmth at all]
reviewed: 2026-11-20
sources: [common practice]
---

# The boiler  is cold
```

```bad 1 in header
also-said: [no warmth at all, nothing gets warm, No warmth at ALL]
```
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from datetime import date

from kb.article import Answer, Article, Audience, End, Step
from kb.findings import Finding, Place
from kb.library import Library
from kb.rules._paths import file_line


def check(library: Library, today: date) -> Iterator[Finding]:
    """Headings, answers, titles and phrases that cannot be told apart."""
    for article in library.articles.values():
        yield from _headings(article)
        for step in article.steps:
            yield from _answers(step.answers)
    if library.danger:
        household = [step for step in library.danger.steps if step.audience is Audience.HOUSEHOLD]
        yield from _answers([answer for step in household for answer in step.answers])
    yield from _phrases(library)


def _headings(article: Article) -> Iterator[Finding]:
    seen: set[str] = set()
    things: tuple[Step | End, ...] = (*article.steps, *article.ends)
    for thing in things:
        if thing.anchor in seen:
            yield _finding(thing.place, f"Two headings of this file come to #{thing.anchor}.", "Reword one of them.")
        seen.add(thing.anchor)


def _answers(answers: Iterable[Answer]) -> Iterator[Finding]:
    seen: dict[str, Answer] = {}
    for answer in answers:
        other = seen.setdefault(answer.token, answer)
        if other is not answer:
            found = (
                f"The answers {other.text!r} (line {other.place.line}) and {answer.text!r} have one sign in a trail."
            )
            yield _finding(answer.place, found, "Reword one of them.")


def _phrases(library: Library) -> Iterator[Finding]:
    said: defaultdict[str, list[Article]] = defaultdict(list)
    for article in library.articles.values():
        for phrase in (article.title, *article.header.also_said):
            said[" ".join(phrase.casefold().split())].append(article)
    for phrase, articles in said.items():
        for article in articles[1:]:
            found = (
                f"{phrase!r} stands in {articles[0].file} too."
                if article != articles[0]
                else f"{phrase!r} stands twice."
            )
            yield _finding(file_line(article), found, "Keep it where it fits best.")


def _finding(place: Place, found: str, remedy: str) -> Finding:
    return Finding(place, "twice-the-same", found, remedy)
