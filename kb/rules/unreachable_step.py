"""unreachable-step: every step is met on some walk

A step that nothing leads to is either forgotten or, worse, the caution that somebody believes is being read.

Lead an answer to it, or take it out.
A walk begins with the first step of an article; an article of the kind `shared` begins only where another article
leads to it.
A link in the words of a step counts as well.
A passage that no end shares is never read either.

```good
### Is the light on?

- [Yes](#is-it-green)
- [No](ends.md#book-a-visit)

### Is it green?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```good in engineer
### Look at the pump

Do [the arrival checks](on-arrival.md) first.

- [It turns](ends.md#job-closed)
- [It is stuck](ends.md#job-closed)
```

```bad 2
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)

### Is it green?

- [Yes](#is-it-bright)
- [No](ends.md#book-a-visit)

### Is it bright?

- [Yes](#is-it-green)
- [No](ends.md#book-a-visit)
```

```bad 1 in engineer
### Look at the pump

- [It turns](ends.md#job-closed)
- [It is stuck](ends.md#job-closed)

### Look at the wires

- [Sound](ends.md#job-closed)
- [Burnt](ends.md#job-closed)
```

```bad 1 in file waiting.md
---
title: While you wait
kind: passages
reviewed: 2026-11-20
sources: [common practice]
---

# While you wait

## For the household

### Keep warm

Close the doors.
```
"""

from collections.abc import Iterator
from datetime import date

from kb.article import Audience
from kb.findings import Finding
from kb.library import Library
from kb.rules._paths import reached, shares


def check(library: Library, today: date) -> Iterator[Finding]:
    """Steps that no walk of their own audience comes to, and passages that no end shares."""
    for audience in Audience:
        met = reached(library, audience)
        for step in library.steps():
            if step.audience is audience and step.target not in met:
                yield Finding(
                    step.place,
                    "unreachable-step",
                    f"Nothing leads the {audience} to {step.title!r}.",
                    "Lead an answer to it, or take it out.",
                )
    shared = {link.target for link in shares(library)}
    for passage in (each for article in library.articles.values() for each in article.passages):
        if passage.target not in shared:
            yield Finding(
                passage.place, "unreachable-step", f"No end shares {passage.title!r}.", "Share it, or take it out."
            )
