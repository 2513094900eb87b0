"""never-reviewed: a registered engineer has read it before anybody follows it

Whoever writes an article is not the one to find its mistakes, and a household follows what it says.
A skeleton says `reviewed: not yet`, so that nobody has to make up a day.

Have a registered engineer read the article or range from end to end, then write that day into `reviewed:`.
This finding holds an article back: unlike advice that has grown old, this was never sound.

```good in header
reviewed: 2026-11-20
```

```bad 1 in header
reviewed: not yet
```
"""

from collections.abc import Iterator
from datetime import date

from kb.findings import Finding
from kb.library import Library
from kb.rules._paths import file_line


def check(library: Library, today: date) -> Iterator[Finding]:
    """Articles that no registered engineer has read."""
    for article in library.articles.values():
        if article.header.reviewed is None:
            found = "No registered engineer has read the article yet."
            yield Finding(file_line(article), "never-reviewed", found, "Have it read, then write the day.")
