"""causes-missing: a fault has causes, and each cause has something that points to it

An engineer who sets off without a likely cause sets off without the part.
A cause that nothing points to can never become likelier than its share, whatever the caller says.

Add a `### Likely causes` table under "For the engineer", and name for each cause at least one answer under
"Points to it".

```good in causes
| Worn pump | 100 | pump | [Sound](on-arrival.md#its-case) ×2 | |
```

```bad 1 in causes
| Worn pump | 60 | pump | [Sound](on-arrival.md#its-case) ×2 | |
| Loose wire | 40 | | | [Sound](on-arrival.md#its-case) ×2 |
```

```bad 1 in causes
```
"""

from collections.abc import Iterator
from datetime import date

from kb.findings import Finding
from kb.header import Kind
from kb.library import Library
from kb.rules._paths import file_line


def check(library: Library, today: date) -> Iterator[Finding]:
    """Faults without causes, and causes that nothing points to."""
    for article in library.articles.values():
        if article.header.kind is Kind.FAULT and not article.causes:
            found, remedy = "The fault has no table of causes.", "Add `### Likely causes` for the engineer."
            yield Finding(file_line(article), "causes-missing", found, remedy)
        for cause in article.causes:
            if not cause.points_to:
                found, remedy = f"Nothing points to {cause.name!r}.", "Name an answer that makes it likelier."
                yield Finding(cause.place, "causes-missing", found, remedy)
