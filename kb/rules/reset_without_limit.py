"""reset-without-limit: what may be tried only so often is asked for only by a step that counts it

Resets, top-ups, thaws, tripped switches, the meter's restore button, letting water out and lighting a pilot again
are safe once or twice and dangerous after.
A sentence that asks for one of them in a step without `tries=` is not counted and can be met again and again.
In the text of an end or an intro it cannot be counted at all.

Give the step `{tries=... at-most=... then="..."}` of its own, one thing a step.
Card lines are the rule card-lines.

```good
{tries=reset at-most=1 then="ends.md#an-engineer-today"}
### Press reset once

Hold the reset button for five seconds.

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```good
### Is the credit used up?

Do not press reset. Top up the meter if its screen says so.

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 1
### Try again

Hold the reset button for five seconds.

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
{tries=top-up at-most=1 then="ends.md#an-engineer-today"}
### Top the water up once

Then press reset.

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1 in ends
{pace=routine call=firm}
### A sign of wear

Bleed a radiator while you wait. Then ring the firm.
```
"""

from collections.abc import Iterator
from datetime import date

from kb.acts import limited_acts
from kb.article import Step
from kb.findings import Finding
from kb.library import Library
from kb.rules._texts import Role, Unit, household_units


def check(library: Library, today: date) -> Iterator[Finding]:
    """Sentences that ask for something limited where nothing counts it."""
    for unit in household_units(library):
        if any(text.role is Role.CARD for text in unit.texts):
            continue
        for sentence, action in limited_acts(unit.words):
            if action != _counted(unit):
                yield Finding(
                    unit.place_of(sentence),
                    "reset-without-limit",
                    f"{sentence!r} asks for a {action}, and nothing counts it.",
                    f"Give it a step of its own with {{tries={action} at-most=… then=…}}.",
                )


def _counted(unit: Unit) -> str | None:
    return unit.owner.limit.action if isinstance(unit.owner, Step) and unit.owner.limit else None
