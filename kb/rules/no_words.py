"""no-words: whatever is shown says something

An end without words is a telephone number on an empty page; an answer without words is a button nobody dares press.

Say in an end what to do now and what while waiting.
Give every answer words of its own.

```good in ends
{pace=routine call=firm}
### A sign of wear

Tell the firm at the next visit.
```

```bad 1 in ends
{pace=routine call=firm}
### A sign of wear
```

```bad 1
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [](ends.md#book-a-visit)
```
"""

from collections.abc import Iterator
from datetime import date

from kb.article import Step
from kb.findings import Finding
from kb.library import Library


def check(library: Library, today: date) -> Iterator[Finding]:
    """Ends and passages without a text, and answers without words."""
    for article in library.articles.values():
        for part in article.parts:
            if not isinstance(part, Step) and not any(block.text.strip() for block in part.body):
                found = f"{part.title!r} has no text."
                yield Finding(part.place, "no-words", found, "Say what to do now and what while waiting.")
    for step in library.steps():
        for answer in step.answers:
            if not answer.text:
                found = f"An answer of {step.title!r} has no words."
                yield Finding(answer.place, "no-words", found, "Write them between the square brackets.")
