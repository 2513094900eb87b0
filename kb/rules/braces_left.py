"""braces-left: no braces are left standing in a text

Braces that cannot be read stay in the text as they are: the household sees them, and what they were to set, a limit
for instance, is not set.
The usual reason is a value with a point or a `#` in it that is not in quotes.

Put such a value in quotes: `{then="ends.md#book-a-visit"}`.
In a region's orders `{gas}` stands for the number of that name; the name must be one of the profile's numbers, and
only what is to be done may hold it, not the reason.

```good
{tries=reset at-most=1 then="ends.md#an-engineer-today"}
### Press reset once

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
### Look at the light

{tries=reset at-most=1 then=ends.md#an-engineer-today}

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
### Look at the light

- [It is on](ends.md#nothing-is-wrong){below=0.8}
- [It is off](ends.md#book-a-visit)
```

```bad 2 in header
title: The {boiler} is cold
also-said: ["it is {cold}", no warmth at all, nothing gets warm]
```

```bad 1 in card
- Keep the {switch} on.
- Ring us if it stays cold.
```

```bad 2 in region
[[orders.hurt]]
do = "Ring {doctor}."
why = "On {emergency} they know what to do."
source = "common practice"
checked = 2026-11-20
```
"""

import re
from collections.abc import Iterator
from datetime import date
from typing import Final

from kb.article import Audience
from kb.findings import Finding, Place
from kb.library import Library
from kb.region import Region
from kb.rules._paths import file_line
from kb.rules._texts import place_of, units

_NUMBER: Final = re.compile(r"\{([\w-]+)\}")


def check(library: Library, today: date) -> Iterator[Finding]:
    """Braces in any text, for household or engineer, and numbers that a region does not have."""
    for article in library.articles.values():
        for audience in Audience:
            for unit in units(article, audience):
                for text in unit.texts:
                    yield from _left(text.words, text.place)
        for words in (*article.header.also_said, *(cause.name for cause in article.causes)):
            yield from _left(words, file_line(article))
    for region in library.regions.values():
        yield from _numbers(region)


def _left(words: str, place: Place) -> Iterator[Finding]:
    for line in words.splitlines():
        if "{" in line or "}" in line:
            yield Finding(
                place,
                "braces-left",
                f"Braces are left standing in {line!r}.",
                "Put values with a point or # in quotes.",
            )


def _numbers(region: Region) -> Iterator[Finding]:
    for action in (action for order in region.orders.values() for action in order):
        unknown = {name for name in _NUMBER.findall(action.do) if name not in region.numbers}
        if unknown or _NUMBER.sub("", action.do).strip("{}") != _NUMBER.sub("", action.do):
            found, remedy = f"{action.do!r} names a number that the region does not have.", "Add it to its numbers."
            yield Finding(place_of(region), "braces-left", found, remedy)
        yield from _left(action.why or "", place_of(region))
