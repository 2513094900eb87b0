"""danger-question: danger is asked for first, whole, and by questions that nothing can answer by itself

Every walk begins with danger.md.
Its questions stand together on a screen with one "none of these", and are read one by one on the phone; both work
only if each has exactly one answer that goes on, and if going on leads through all of them.
Any other answer must lead to somebody at once.

Write one article of the kind `danger`.
Under "For the household" each step asks one thing, with one answer to the next step, or from the last to
`ends.md#carry-on`, and all others to ends of the pace `leave`, `make-safe` or `today`, or to a fault with `emergency`
in its header.
No fact, reading or limit may stand in its braces: a known fact would pass the question by.

```good in danger
### Can you smell gas?

- [Yes](ends.md#get-out)
- [Not sure](ends.md#get-out)
- [No](#is-anyone-hurt)

### Is anyone hurt?

- [Yes](ends.md#get-out)
- [No](ends.md#carry-on)
```

```bad 1 in danger
### Can you smell gas?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#carry-on)
```

```bad 2 in danger
### Can you smell gas?

- [Yes](ends.md#get-out)
- [No](ends.md#carry-on)
- [Faintly](#is-anyone-hurt)

### Is anyone hurt?

- [Yes](ends.md#get-out)
- [No](ends.md#carry-on)
```

```bad 1 in danger
### Can you smell gas?

- [Yes](ends.md#get-out)
- [No](ends.md#carry-on)

### Is anyone hurt?

- [Yes](ends.md#get-out)
- [No](#can-you-smell-gas)
```

```bad 1 in danger
{fact=fuel}
### Can you smell gas?

- [Yes](ends.md#get-out){is=natural-gas}
- [No](ends.md#carry-on)
```

```bad 1 in file danger-too.md
---
title: Before anything at all
kind: danger
reviewed: 2026-11-20
sources: [common practice]
---

# Before anything at all

## For the household

### Is there smoke?

- [Yes](ends.md#get-out)
- [No](ends.md#carry-on)
```

```bad 1 in file danger.md
---
title: Before anything else
kind: shared
reviewed: 2026-11-20
sources: [common practice]
---

# Before anything else
```
"""

from collections.abc import Iterator
from datetime import date
from typing import Final

from kb.article import Answer, Article, Audience, End, Pace, Step
from kb.findings import Finding, Place
from kb.header import Kind
from kb.library import CARRY_ON, Library
from kb.rules._paths import file_line

_AT_ONCE: Final = frozenset({Pace.LEAVE, Pace.MAKE_SAFE, Pace.TODAY})


def check(library: Library, today: date) -> Iterator[Finding]:
    """Whatever would let a walk begin with less than all the danger questions."""
    dangers = [article for article in library.articles.values() if article.header.kind is Kind.DANGER]
    if not any(article.first(Audience.HOUSEHOLD) for article in dangers):
        yield _finding(Place("danger.md", 1), "There are no danger questions.", "Write danger.md first.")
    for article in dangers[1:]:
        found = f"{dangers[0].file} asks for danger already, so nobody is asked this."
        yield _finding(file_line(article), found, "Put all the danger questions into one file.")
    for article in dangers[:1]:
        yield from _questions(library, article)


def _questions(library: Library, danger: Article) -> Iterator[Finding]:
    household = [step for step in danger.steps if step.audience is Audience.HOUSEHOLD]
    for step in household:
        yield from _question(library, step)
    passed = _passed(household)
    for step in household:
        if step not in passed:
            found = f"Whoever says no to everything is never asked {step.title!r}."
            yield _finding(step.place, found, "Let each no lead to the next question, the last to ends.md#carry-on.")


def _question(library: Library, step: Step) -> Iterator[Finding]:
    if step.fact or step.reading or step.limit:
        found = f"The danger question {step.title!r} has a fact, a reading or a limit."
        yield _finding(step.place, found, "Take the braces out: it must always be asked.")
    onward = [answer for answer in step.answers if _goes_on(step, answer)]
    if len(onward) != 1:
        found = f"{len(onward)} answers of {step.title!r} go on."
        yield _finding(step.place, found, "Let exactly one answer go on, to the next question or to ends.md#carry-on.")
    for answer in step.answers:
        if answer not in onward and not _helps_at_once(library, answer):
            found = f"The answer {answer.text!r} leads to nobody who helps at once."
            yield _finding(answer.place, found, "Lead it to an end of the pace leave, make-safe or today.")


def _goes_on(step: Step, answer: Answer) -> bool:
    return answer.target == CARRY_ON or answer.target.article == step.article


def _helps_at_once(library: Library, answer: Answer) -> bool:
    place = library.find(answer.target, Audience.HOUSEHOLD)
    if isinstance(place, End):
        return place.pace in _AT_ONCE
    return place is not None and library.articles[place.article].header.emergency is not None


def _passed(questions: list[Step]) -> list[Step]:
    """The questions that somebody passes who says no to each."""
    by_target = {step.target: step for step in questions}
    passed: list[Step] = []
    step = questions[0] if questions else None
    while step is not None and step not in passed:
        passed.append(step)
        onward = next((answer.target for answer in step.answers if _goes_on(step, answer)), None)
        step = by_target.get(onward) if onward else None
    return passed


def _finding(place: Place, found: str, remedy: str) -> Finding:
    return Finding(place, "danger-question", found, remedy)
