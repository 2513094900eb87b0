"""tried-questions: for everything that is limited, tried.md asks how often it was tried before

Three resets before the call and two more after it are five.
Before a walk comes to something limited it asks, once, how often that was tried, with the question from `tried.md`,
and goes on from there.

Each `tries=` that an article uses needs its question in `tried.md`, under "For the household".
Each answer there stands for a count by `{is=...}` and leads to `ends.md#carry-on`; every count from 0 to 3 has an
answer, and "I do not know" counts as the most.
The questions themselves are not limited and read no gauge.

```good in tried
{fact=resets-tried}
### How often was it reset today?

- [Never](ends.md#carry-on){is=0}
- [Once](ends.md#carry-on){is=1}
- [Twice](ends.md#carry-on){is=2}
- [More often, or I do not know](ends.md#carry-on){is=3}
```

```bad 1
{tries=relight at-most=1 then="ends.md#an-engineer-today"}
### Light the pilot once

- [It burns](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 2 in tried
{fact=resets-tried}
### How often was it reset today?

- [Never](ends.md#carry-on){is=0}
- [Once](ends.md#carry-on){is=1}
- [Twice](ends.md#carry-on){is=2}
- [More often](ends.md#an-engineer-today){is=3}
- [I do not know](ends.md#carry-on)
```

```bad 1 in tried
{fact=resets-tried}
### How often was it reset today?

- [Never](ends.md#carry-on){is=0}
- [Ever](ends.md#carry-on){is=3}
```

```bad 1 in tried
{fact=resets-tried}
### How often was it reset today?

- [Never](ends.md#carry-on){is=0}
- [Once](ends.md#carry-on){is=1}
- [Twice](ends.md#carry-on){is=2}
- [More often](ends.md#carry-on){is=3}
- [All the time](ends.md#carry-on){is=9}
```

```bad 1 in tried
{fact=system}
### Is there a gauge?

- [Yes](ends.md#carry-on){is=sealed}
- [No](ends.md#carry-on){is=vented}
```
"""

from collections.abc import Iterator
from datetime import date

from kb.article import Audience, Step
from kb.facts import COUNTS, TRIED
from kb.findings import Finding, Place
from kb.library import CARRY_ON, TRIED_ARTICLE, Library
from kb.rules._paths import tried_questions


def check(library: Library, today: date) -> Iterator[Finding]:
    """Limited things whose earlier attempts nobody asks for, and questions that would not count them."""
    yield from _not_asked(library)
    tried = library.articles.get(TRIED_ARTICLE)
    for step in tried.steps if tried else ():
        if step.audience is Audience.HOUSEHOLD:
            yield from _question(step)


def _not_asked(library: Library) -> Iterator[Finding]:
    asked = {step.fact for step in tried_questions(library) if step.audience is Audience.HOUSEHOLD}
    for step in library.steps():
        action = step.limit.action if step.limit else None
        if action and TRIED[action] not in asked:
            found = f"Nothing asks how often the {action} was tried before."
            yield _finding(step.place, found, f"Add a step with {{fact={TRIED[action]}}} to tried.md.")


def _question(step: Step) -> Iterator[Finding]:
    if step.fact not in TRIED.values() or step.limit or step.reading:
        found = f"The step {step.title!r} does not ask, and only ask, how often something was tried."
        yield _finding(step.place, found, f"Give it {{fact=…}}, one of {', '.join(TRIED.values())}, and no more.")
        return
    for answer in step.answers:
        if answer.target != CARRY_ON:
            found = f"The answer {answer.text!r} leads to {answer.target}."
            yield _finding(answer.place, found, "Lead it to ends.md#carry-on.")
        if answer.fact_value not in COUNTS:
            found = f"The answer {answer.text!r} stands for no count."
            yield _finding(answer.place, found, f"Write {{is=…}} behind it, one of {', '.join(COUNTS)}.")
    missing = [count for count in COUNTS if count not in {answer.fact_value for answer in step.answers}]
    if missing:
        found = f"No answer stands for {', '.join(missing)}."
        yield _finding(step.place, found, "Give each count from 0 to 3 an answer; 3 also means more.")


def _finding(place: Place, found: str, remedy: str) -> Finding:
    return Finding(place, "tried-questions", found, remedy)
