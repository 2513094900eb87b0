"""used-up-without-help: whoever has used up a limit is sent to somebody

A reset that was tried as often as is safe is a fault that stays.
If `then` leads to an end that says all is well, somebody cold is told that nothing is wrong.

Lead `then` to an end that somebody comes for, or to a step that goes on looking.

```good
{tries=reset at-most=1 then="ends.md#book-a-visit"}
### Press reset once

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
{tries=reset at-most=1 then="ends.md#it-is-working-again"}
### Press reset once

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
{tries=reset at-most=1 then="ends.md#carry-on"}
### Press reset once

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```
"""

from collections.abc import Iterator
from datetime import date

from kb.article import End, Pace
from kb.findings import Finding
from kb.library import CARRY_ON, Library


def check(library: Library, today: date) -> Iterator[Finding]:
    """Limits that lead to good advice when they are used up."""
    for step in library.steps():
        then = library.find(step.limit.then, step.audience) if step.limit and step.limit.then else None
        if isinstance(then, End) and (then.pace is Pace.ADVICE or then.target == CARRY_ON):
            yield Finding(
                step.place,
                "used-up-without-help",
                f"When the limit of {step.title!r} is used up, the walk ends at {then.title!r}.",
                "Lead `then` to an end that somebody comes for.",
            )
