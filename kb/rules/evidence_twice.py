"""evidence-twice: an answer counts once for a cause, for it or against it

The same answer twice in a row of the table would be multiplied twice; on both sides it would argue with itself.

Name it once, on the side it belongs to, with the strength you mean.

```good in causes
| Worn pump | 60 | pump | [Sound](on-arrival.md#its-case) ×2 | |
| Loose wire | 40 | | [Damaged](on-arrival.md#its-case) ×2 | [Sound](on-arrival.md#its-case) ×2 |
```

```bad 1 in causes
| Worn pump | 60 | pump | [Sound](on-arrival.md#its-case) ×2 | [Sound](on-arrival.md#its-case) ×3 |
| Loose wire | 40 | | [Damaged](on-arrival.md#its-case) ×2 | |
```

```bad 1 in causes
| Worn pump | 100 | pump | [Sound](on-arrival.md#its-case) ×2; [Sound](on-arrival.md#its-case) ×2 | |
```
"""

from collections import Counter
from collections.abc import Iterator
from datetime import date

from kb.findings import Finding
from kb.library import Library


def check(library: Library, today: date) -> Iterator[Finding]:
    """Answers that stand more than once in the evidence of one cause."""
    for article in library.articles.values():
        for cause in article.causes:
            given = Counter((evidence.step, evidence.answer) for evidence in (*cause.points_to, *cause.points_away))
            for (step, answer), times in given.items():
                if times > 1:
                    yield Finding(
                        cause.place,
                        "evidence-twice",
                        f"{answer!r} of {step} stands {times} times in the evidence for {cause.name!r}.",
                        "Name it once, on the side it belongs to.",
                    )
