"""missing-source: every article says where it is from, and when that was looked at

Somebody will ask why a household was told to do this, and a source without a day cannot be told from one that has
long been replaced.

Name at least one source.
Each is `common practice`, with a word on what for if it helps, or ends with `(checked YYYY-MM-DD)`, or says `from
memory`, so that it is looked up before anybody relies on it.

```good in header
sources:
  - common practice, shares are judgement
  - "HSE leaflet INDG238 (checked 2026-11-20)"
  - Regulation 26, from memory
```

```bad 1 in header
sources: []
```

```bad 2 in header
sources:
  - HSE leaflet INDG238
  - "HSE leaflet INDG238 (checked last winter)"
```

```bad 1 in header
sources: ["HSE leaflet INDG238 (checked 2026-13-40)"]
```

```bad 1 in header
sources: ["HSE leaflet INDG238 (checked 2027-06-01)"]
```
"""

import re
from collections.abc import Iterator
from datetime import date
from typing import Final

from kb.findings import Finding
from kb.library import Library
from kb.rules._paths import file_line

_CHECKED: Final = re.compile(r"\bchecked (\d{4}-\d{2}-\d{2})\)")


def check(library: Library, today: date) -> Iterator[Finding]:
    """Articles without a source, and sources without a day."""
    for article in library.articles.values():
        if not article.header.sources:
            found, remedy = "The article names no source.", "Add at least one to `sources:`."
            yield Finding(file_line(article), "missing-source", found, remedy)
        for source in article.header.sources:
            if not _is_dated(source, today):
                found = f"The source {source!r} does not say when it was looked at."
                remedy = "End it with (checked YYYY-MM-DD), or write `common practice` or `from memory`."
                yield Finding(file_line(article), "missing-source", found, remedy)


def _is_dated(source: str, today: date) -> bool:
    words = source.casefold()
    if words.startswith("common practice") or "from memory" in words:
        return True
    checked = _CHECKED.search(words)
    try:
        return checked is not None and date.fromisoformat(checked[1]) <= today
    except ValueError:
        return False
