"""phone-number-in-text: no number to call stands in an article

An article is read wherever the firm works, and numbers differ from place to place: the right one in one country
rings nobody in the next.
Numbers come from the region's profile and from what the firm has confirmed for the place; an end says which by
`call=`.

Write "the number shown here", and let `call=` and the region's order say which that is.

```good in ends
{pace=make-safe call=firm}
### Turn it off

Ring the number shown here. Wait 10 minutes, then read the 2 figures again at 18.30.
```

```bad 3 in ends
{pace=make-safe call=firm}
### Turn it off

Ring 999 from outside.

Or ring 0800 111 999 if you smell gas, or +353 1850 205 050.
```

```bad 1 in card
- Ring 01632 960123 if it stays cold.
- Keep the switch on.
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

_NUMBER: Final = re.compile(
    r"(?<![\w.,])(?:\+\d[\d ()-]{6,}\d|0\d{2,4}[ -]?\d{3}[\d -]{2,}\d|(?:999|112|911|000)(?![\w.,]*\d))(?!\w)"
)
_SHORT: Final = re.compile(
    r"\b(?:ring|call|dial|phone|text|on)\s+(1\d\d)\b(?!\s*(?:bar|°|degrees|litres|minutes))", re.IGNORECASE
)


def check(library: Library, today: date) -> Iterator[Finding]:
    """What looks like a number to call in a household's text; the orders of a region are where they belong."""
    for article in library.articles.values():
        for unit in units(article, Audience.HOUSEHOLD):
            for text in unit.texts:
                found = [match[0] for match in _NUMBER.finditer(text.words)]
                found += [match[1] for match in _SHORT.finditer(text.words) if match[1] not in found]
                for number in found:
                    yield Finding(
                        text.place,
                        "phone-number-in-text",
                        f"The number {number!r} stands in a text.",
                        "Write `the number shown here`; call= and the region say which it is.",
                    )
