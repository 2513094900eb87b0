"""shares-not-100: the shares of the causes add up to 100

The shares are where the likelihood of each cause starts from.
If they add up to something else, a figure was mistyped or a cause was forgotten, and the brief leans the wrong way.

Let the shares of one table add up to 100, each of them over 0.

```good in causes
| Worn pump | 62.5 | pump | [Sound](on-arrival.md#its-case) ×2 | |
| Loose wire | 37.5 | | [Damaged](on-arrival.md#its-case) ×2 | |
```

```bad 1 in causes
| Worn pump | 60 | pump | [Sound](on-arrival.md#its-case) ×2 | |
| Loose wire | 30 | | [Damaged](on-arrival.md#its-case) ×2 | |
```

```bad 1 in causes
| Worn pump | 100 | pump | [Sound](on-arrival.md#its-case) ×2 | |
| Loose wire | 0 | | [Damaged](on-arrival.md#its-case) ×2 | |
```
"""

from collections.abc import Iterator
from datetime import date
from math import isclose

from kb.findings import Finding
from kb.library import Library


def check(library: Library, today: date) -> Iterator[Finding]:
    """Tables whose shares do not add up, and shares that are nothing."""
    for article in library.articles.values():
        total = sum(cause.share for cause in article.causes)
        if article.causes and not isclose(total, 100, abs_tol=0.01):
            found, remedy = f"The shares of the causes add up to {total:g}.", "Let them add up to 100."
            yield Finding(article.causes[0].place, "shares-not-100", found, remedy)
        for cause in article.causes:
            if not cause.share > 0:
                found, remedy = f"The share of {cause.name!r} is {cause.share:g}.", "Give it a share, or take it out."
                yield Finding(cause.place, "shares-not-100", found, remedy)
