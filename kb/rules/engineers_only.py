"""engineers-only: no household is led to an engineer's place

What stands outside "For the household" is for somebody who is registered, insured and equipped for it.
A household that reads it may try it.

Lead a household's answer to a household step or to an end for households.
If the place should be a household's, move it under `## For the household`.

```good
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 2
### Is the light on?

- [Yes](ends.md#job-closed)
- [No](#look-at-the-pump)
```

```bad 1
### Is the light on?

See [the arrival checks](on-arrival.md) first.

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 1
{at-most=1 then="ends.md#job-closed"}
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```
"""

from collections.abc import Iterator
from datetime import date

from kb.article import Audience
from kb.findings import Finding
from kb.library import Library
from kb.rules._paths import links, shares


def check(library: Library, today: date) -> Iterator[Finding]:
    """Links of a household that lead to a place only engineers may see."""
    for link in links(library):
        seen_by = {audience for audience in Audience if library.find(link.target, audience) is not None}
        if link.audience not in seen_by and Audience.ENGINEER in seen_by:
            yield Finding(
                link.place,
                "engineers-only",
                f"A household is led to {link.target}, which is the engineer's.",
                "Lead it to a household step, or to an end for households.",
            )
    for link in shares(library):
        if library.passage(link.target, Audience.ENGINEER) and not library.passage(link.target, link.audience):
            yield Finding(
                link.place,
                "engineers-only",
                f"An end for households shares {link.target}, which is the engineer's.",
                "Share a passage that stands under `## For the household`.",
            )
