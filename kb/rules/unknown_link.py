"""unknown-link: every link leads somewhere

A link to a step that was renamed, or to an article that is not there, breaks a walk off in the middle.

Link to a step of the same file (`#slug`), to an article (`high-pressure.md`: its first step), to a step of another
article (`high-pressure.md#slug`), or to an end (`ends.md#slug`).
The links that close an end lead to passages (`waiting.md#slug`), and nothing else does.
The slug is the heading in small letters, with dashes for spaces and without punctuation.
Links to pages elsewhere are not allowed: a household would leave the way that was checked for it.

```good
### Is the light on?

- [Yes](#is-it-green)
- [No](ends.md#book-a-visit)

### Is it green?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 3
### Is the light on?

See [this page](https://example.org/) or [the manual](manual.md).

- [Yes](#is-it-blue)
- [No](ends.md#book-a-visit)
```

```bad 1
{tries=reset at-most=1 then="ends.md#no-such-end"}
### Press reset once

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1 in engineer
### Weigh the loss

- [Heavy](no-such-article.md)
- [Light](ends.md#job-closed)
```

```bad 1 in ends
{pace=routine call=firm}
### A sign of wear

Tell the firm.

- [Keep warm](waiting.md#no-such-passage)
```

```bad 1 in engineer
### Weigh the loss

- [Heavy](tried.md)
- [Light](ends.md#job-closed)
```
"""

from collections.abc import Iterator
from datetime import date

from kb.article import Audience
from kb.findings import Finding
from kb.library import Library
from kb.rules._paths import links, shares


def check(library: Library, today: date) -> Iterator[Finding]:
    """Links to nowhere; a household's link to an engineer's place is the rule engineers-only."""
    for link in links(library):
        if library.find(link.target, link.audience) is None and library.find(link.target, Audience.ENGINEER) is None:
            yield Finding(
                link.place,
                "unknown-link",
                f"{link.target} leads to no step and no end.",
                "Copy the heading in small letters, with dashes for spaces and without punctuation.",
            )
    for link in shares(library):
        if library.passage(link.target, Audience.ENGINEER) is None:
            yield Finding(
                link.place,
                "unknown-link",
                f"{link.target}, which an end shares, leads to no passage.",
                "Close an end with links to passages, such as waiting.md#slug, or with words.",
            )
