"""article-shape: an article has what its kind needs

The kind decides where an article is offered and what is made of it, so a fault without household steps would be a
button that leads nowhere, and one that goes by another name than its file would not be found.

- A `fault` goes by one name: its `category` is its file's name. It has steps for the household and for the engineer.
- A `how-to` has steps for the household.
- A `setting` has steps for the engineer, and nothing for the household.
- `danger` and `shared` have steps.
- `passages` has passages, and they are no steps: a list of links that closes one would never be answers.
- `ends` is the kind of ends.md alone, where every link looks for them, and it has ends for both.
- `category`, `often` and `emergency` belong to faults.
- tried.md is of the kind `shared`.

```good in header
often: 3
```

```bad 1 in header
category: something-else
```

```bad 1 in header
kind: shared
```

```bad 3 in file ends-too.md
---
title: More ends
kind: ends
reviewed: 2026-11-20
sources: [common practice]
---

# More ends
```

```bad 1 in file tried.md
---
title: What was tried before
kind: how-to
reviewed: 2026-11-20
sources: [common practice]
---

# What was tried before

## For the household

### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 2 in file other.md
---
title: The boiler hums
kind: fault
category: other
reviewed: 2026-11-20
sources: [common practice]
---

# The boiler hums
```

```bad 1 in file other.md
---
title: The speed of the pump
kind: setting
reviewed: 2026-11-20
sources: [common practice]
---

# The speed of the pump

## For the household

### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)

## For the engineer

### Write down what it is

- [It is as it should be](ends.md#job-closed)
- [It is not](ends.md#job-closed)
```

```bad 1 in file other.md
---
title: How to read the gauge
kind: how-to
reviewed: 2026-11-20
sources: [common practice]
---

# How to read the gauge

## For the Household

### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```
"""

from collections.abc import Iterator
from datetime import date

from kb.article import Article, Audience
from kb.findings import Finding
from kb.header import Kind
from kb.library import CARRY_ON, TRIED_ARTICLE, Library
from kb.rules._paths import file_line


def check(library: Library, today: date) -> Iterator[Finding]:
    """Articles that lack what their kind needs, or carry what belongs to another."""
    for article in library.articles.values():
        for found, remedy in (*_named(article), *_filled(article)):
            yield Finding(file_line(article), "article-shape", found, remedy)


def _named(article: Article) -> Iterator[tuple[str, str]]:
    header = article.header
    if header.kind is Kind.FAULT and header.category != article.id:
        yield f"The category is {header.category!r}, but the file is {article.file}.", "Give both the same name."
    strays = [name for name in ("category", "often", "emergency") if getattr(header, name) is not None]
    if header.kind is not Kind.FAULT and strays:
        yield f"{' and '.join(strays)} stand in the header of a {header.kind}.", "Only faults have them."
    if (header.kind is Kind.ENDS) != (article.id == CARRY_ON.article):
        yield f"{article.file} is of the kind {header.kind}.", "Keep all ends in ends.md, and nothing else there."
    if article.id == TRIED_ARTICLE and header.kind is not Kind.SHARED:
        yield f"{article.file} is of the kind {header.kind}.", "Make it `kind: shared`."


def _filled(article: Article) -> Iterator[tuple[str, str]]:
    here = {part.audience for part in article.parts}
    match article.header.kind:
        case Kind.FAULT | Kind.ENDS:
            needed = {Audience.HOUSEHOLD, Audience.ENGINEER}
        case Kind.HOW_TO | Kind.DANGER:
            needed = {Audience.HOUSEHOLD}
        case Kind.SETTING:
            needed = {Audience.ENGINEER}
        case Kind.SHARED | Kind.PASSAGES:
            needed = set() if here else {Audience.ENGINEER}
    if article.header.kind is Kind.SETTING and Audience.HOUSEHOLD in here:
        yield "A setting has something for the household.", "Settings are the engineer's: write a how-to beside it."
    for audience in sorted(needed - here):
        yield (
            f"The article has nothing for the {audience}.",
            "Write it under `## For the household` or `## For the engineer`.",
        )
