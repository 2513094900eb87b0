"""emergency-order: whoever must leave is told in which order, and by whose authority

What to do first at a smell of gas is fixed by each region's own authorities, and is shown from its profile.
An end that sends people out must name the order that belongs to it and call somebody who comes at any hour.

An end of the pace `leave` for households carries `call=gas` or `call=emergency`, and `emergency=` with the name of an
order; so may an article's header.
Each region has an order of that name, each of the five known orders is used by an end, and there is at least one
region.

```good in ends
{pace=leave call=emergency emergency=fire}
### Leave the house

Go outside now.
```

```bad 2 in ends
{pace=leave call=firm}
### Leave the house

Go outside now.
```

```bad 1 in ends
{pace=leave call=gas emergency=flood}
### Leave the house

Go outside now.
```

```bad 1 in header
emergency: flood
```

```bad 5 in file ends.md
---
title: Where a path ends
kind: ends
reviewed: 2026-11-20
sources: [common practice]
---

# Where a path ends
```
"""

from collections.abc import Iterator
from datetime import date

from kb.article import Audience, Call, End, Pace
from kb.findings import Finding, Place
from kb.library import Library
from kb.region import ORDERS
from kb.rules._paths import file_line


def check(library: Library, today: date) -> Iterator[Finding]:
    """Emergencies without an order, without a call, or with an order that a region does not have."""
    if not library.regions:
        yield _finding(Place("regions", 1), "There is no region.", "Add a profile to the folder `regions`.")
    ends = [end for end in library.ends() if end.audience is Audience.HOUSEHOLD]
    for end in ends:
        if end.pace is Pace.LEAVE:
            yield from _leaving(end)
        yield from _unknown(library, end.emergency, end.place)
    for article in library.articles.values():
        yield from _unknown(library, article.header.emergency, file_line(article))
    for order in ORDERS:
        if order not in {end.emergency for end in ends}:
            found = f"No end shows the order for {order}."
            yield _finding(Place("ends.md", 1), found, f"Add emergency={order} to the braces of an end.")


def _leaving(end: End) -> Iterator[Finding]:
    if end.call not in {Call.GAS, Call.EMERGENCY}:
        found = f"The end {end.title!r} sends people out and calls the {end.call}."
        yield _finding(end.place, found, "Write call=gas or call=emergency.")
    if end.emergency is None:
        found = f"The end {end.title!r} sends people out without an order of actions."
        yield _finding(end.place, found, f"Write emergency=, one of {', '.join(ORDERS)}.")


def _unknown(library: Library, order: str | None, place: Place) -> Iterator[Finding]:
    lacking = [region.name for region in library.regions.values() if order and not region.orders.get(order)]
    if lacking:
        found = f"The order {order!r} is not known in {', '.join(lacking)}."
        yield _finding(place, found, "Add it to the profile, or choose another.")


def _finding(place: Place, found: str, remedy: str) -> Finding:
    return Finding(place, "emergency-order", found, remedy)
