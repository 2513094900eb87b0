"""dead-end: every step closes with answers, and what is tried has more than one outcome

A step without answers leaves somebody standing in a cold house with nothing to press.
So does a step that tries something and knows only one outcome: whoever meets the other one is stuck.

Close the step with a list of links, each line one link and nothing else.
A list with a word beside a link, or words behind the list, is no list of answers.

```good
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 1
### Is the light on?

Look at the front of the boiler.
```

```bad 1
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit) or ring us
```

```bad 1
{tries=reset at-most=1 then="ends.md#an-engineer-today"}
### Press reset once

- [It runs](ends.md#it-is-working-again)
```

```bad 1 in engineer
### Weigh the loss

Bag the outlet overnight.
```
"""

from collections.abc import Iterator
from datetime import date

from kb.findings import Finding
from kb.library import Library


def check(library: Library, today: date) -> Iterator[Finding]:
    """Steps that cannot be left, or not by everybody."""
    for step in library.steps():
        if not step.answers:
            yield Finding(
                step.place,
                "dead-end",
                f"The step {step.title!r} has no answers.",
                "Close it with a list of links, each line one link and nothing else.",
            )
        elif step.limit and len(step.answers) < 2:
            yield Finding(
                step.place,
                "dead-end",
                f"The step {step.title!r} tries something and knows only one outcome.",
                "Add an answer for whoever finds that it did not help.",
            )
