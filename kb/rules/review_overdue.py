"""review-overdue: a registered engineer has read it within the last twelve months

Standards, numbers and appliances change, and what was right two winters ago may not be safe now.
A day in the future is a slip of the pen that would hide for a year that nobody has read it.

Have it read, then write the day into `reviewed:`.
A region's profile is held to the same, and so is the day each of its numbers was checked.

This finding does not hold an article back: old advice that was sound is better than none at six in the morning.

```good in header
reviewed: 2025-12-15
```

```bad 1 in header
reviewed: 2025-11-01
```

```bad 1 in header
reviewed: 2027-01-01
```

```bad 2 in region
reviewed = 2024-01-01

[numbers.emergency]
number = "112"
name = "emergency services"
source = "common practice"
checked = 2024-01-01
```
"""

from collections.abc import Iterator
from datetime import date
from typing import Final

from kb.findings import Finding, Place
from kb.library import Library
from kb.rules._paths import file_line
from kb.rules._texts import place_of

HOLDS_BACK: Final = False


def check(library: Library, today: date) -> Iterator[Finding]:
    """Articles, regions and numbers that were last looked at too long ago, or not yet."""
    for article in library.articles.values():
        if article.header.reviewed is not None:
            yield from _overdue("The article", article.header.reviewed, today, file_line(article))
    for region in library.regions.values():
        yield from _overdue("The profile", region.reviewed, today, place_of(region))
        for kind, number in region.numbers.items():
            yield from _overdue(f"The {kind} number", number.checked, today, place_of(region))


def _overdue(what: str, day: date, today: date, place: Place) -> Iterator[Finding]:
    if day > today:
        found = f"{what} was reviewed on {day}, which is still to come."
        yield Finding(place, "review-overdue", found, "Write the day it was really read.")
    elif (day.year + 1, day.month, day.day) < (today.year, today.month, today.day):
        found = f"{what} was last reviewed on {day}."
        yield Finding(place, "review-overdue", found, "Have a registered engineer read it, then write the day.")
