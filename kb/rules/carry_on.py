"""carry-on: only inserted questions end with "carry on"

`ends.md#carry-on` is no end but the way back: the walk returns to where the danger questions, or the question about
earlier attempts, were inserted.
An article's own answer that leads there would leave a household at an end that calls nobody, or, worse, throw it
back to a step of another article.

Keep an end for households called "Carry on" in ends.md, and lead only answers of danger.md and tried.md to it.

```good in danger
### Can you smell gas?

- [Yes](ends.md#get-out)
- [No](ends.md#carry-on)
```

```bad 1
### Is the light on?

- [Yes](ends.md#carry-on)
- [No](ends.md#book-a-visit)
```

```bad 1 in engineer
### Look at the pump

- [It turns](ends.md#carry-on)
- [It is stuck](ends.md#job-closed)
```

```bad 1 in file ends.md
---
title: Where a path ends
kind: ends
reviewed: 2026-11-20
sources: [common practice]
---

# Where a path ends
```
"""

from collections.abc import Iterator
from datetime import date

from kb.article import Audience, End
from kb.findings import Finding, Place
from kb.library import CARRY_ON, TRIED_ARTICLE, Library
from kb.rules._paths import household_end, links


def check(library: Library, today: date) -> Iterator[Finding]:
    """A way back that is not there, and links to it from where there is nothing to go back to."""
    if not isinstance(household_end(library.find(CARRY_ON, Audience.HOUSEHOLD)), End):
        found, remedy = "There is no end called Carry on for households.", "Add it to ends.md."
        yield Finding(Place("ends.md", 1), "carry-on", found, remedy)
    inserted = {f"{TRIED_ARTICLE}.md", library.danger.file if library.danger else "danger.md"}
    for link in links(library):
        if link.target == CARRY_ON and link.place.file not in inserted:
            found, remedy = "A link leads to the way back of inserted questions.", "Lead it to an end of its own."
            yield Finding(link.place, "carry-on", found, remedy)
