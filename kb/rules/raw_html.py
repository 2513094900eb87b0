"""raw-html: articles hold no HTML

An article is also printed and read out, where a tag means nothing, and on a page a tag is never let through: it
would stand there as it was typed.

Write markdown instead: `**bold**`, lists, `>` for a caution.

```good
### Is the needle low?

It is low if the figure is < 1.

- [Yes](ends.md#book-a-visit)
- [No](ends.md#nothing-is-wrong)
```

```bad 2
### Is the needle low?

Look at the <b>round</b> dial.

<!-- ask Jo about this -->

- [Yes](ends.md#book-a-visit)
- [No](ends.md#nothing-is-wrong)
```

```bad 1
### Is the needle low?

- [Yes<br>](ends.md#book-a-visit)
- [No](ends.md#nothing-is-wrong)
```
"""

import re
from collections.abc import Iterator
from datetime import date
from typing import Final

from kb.article import Audience
from kb.findings import Finding
from kb.library import Library
from kb.rules._texts import units

_TAG: Final = re.compile(r"</?[A-Za-z][^<>]*>|<!--|&(?:#\d+|[A-Za-z]+);")


def check(library: Library, today: date) -> Iterator[Finding]:
    """Texts with a tag, a comment or an entity in them."""
    for article in library.articles.values():
        for audience in Audience:
            for unit in units(article, audience):
                for text in unit.texts:
                    tag = _TAG.search(text.words)
                    if tag:
                        found, remedy = f"HTML stands in the text: {tag[0]!r}.", "Write it in markdown."
                        yield Finding(text.place, "raw-html", found, remedy)
