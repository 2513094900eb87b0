"""fact-answers: a step that asks for a fact has an answer for each value it names, and one for "I do not know"

A home that is known answers such a step by itself, so its answers must say which value they stand for.
Whoever does not know takes the one answer without `is`, and is led there again, unasked, by every later step about
the same fact: with two such answers one of them would be chosen by chance.

Write `{is=...}` behind the answers with values of the step's fact, each value once, and leave one answer without.
A step about a fact may not be limited or read a gauge as well: a known fact would pass both by.
How often something was tried before is asked for in `tried.md` alone, since a second question would set the count
back.

```good
{fact=system}
### Is there a pressure gauge?

- [Yes](ends.md#nothing-is-wrong){is=sealed}
- [No](ends.md#nothing-is-wrong){is=vented}
- [I am not sure](ends.md#book-a-visit)
```

```bad 1
{fact=system}
### Is there a pressure gauge?

- [Yes](ends.md#nothing-is-wrong){is=sealed}
- [No](ends.md#nothing-is-wrong){is=none}
- [I am not sure](ends.md#book-a-visit)
```

```bad 1
{fact=system}
### Is there a pressure gauge?

- [Yes](ends.md#nothing-is-wrong){is=sealed}
- [A round one](ends.md#nothing-is-wrong){is=sealed}
- [I am not sure](ends.md#book-a-visit)
```

```bad 2
{fact=system}
### Is there a pressure gauge?

- [Yes](ends.md#nothing-is-wrong)
- [I am not sure](ends.md#book-a-visit)
```

```bad 1
### Is there a pressure gauge?

- [Yes](ends.md#nothing-is-wrong){is=sealed}
- [I am not sure](ends.md#book-a-visit)
```

```bad 1
{fact=system at-most=2 then="ends.md#book-a-visit"}
### Is there a pressure gauge?

- [Yes](ends.md#nothing-is-wrong){is=sealed}
- [I am not sure](ends.md#book-a-visit)
```

```bad 1
{fact=resets-tried}
### How often was it reset?

- [Never](ends.md#nothing-is-wrong){is=0}
- [I do not know](ends.md#book-a-visit)
```
"""

from collections import Counter
from collections.abc import Iterator
from datetime import date

from kb.article import Step
from kb.facts import TRIED, values_of
from kb.findings import Finding, Place
from kb.library import TRIED_ARTICLE, Library


def check(library: Library, today: date) -> Iterator[Finding]:
    """Answers about facts that a known home could not give, or not give for certain."""
    for step in library.steps():
        if step.article == TRIED_ARTICLE:
            continue
        if step.fact is None:
            yield from _without_fact(step)
        else:
            yield from _values(step, step.fact)
            yield from _unsure(step)
            yield from _mixed(step, step.fact)


def _without_fact(step: Step) -> Iterator[Finding]:
    for answer in step.answers:
        if answer.fact_value is not None:
            found = f"The answer {answer.text!r} has is={answer.fact_value}, but its step asks for no fact."
            yield _finding(answer.place, found, "Write {fact=…} above the step, or take the braces out.")


def _values(step: Step, fact: str) -> Iterator[Finding]:
    known = values_of(fact) or ()
    counted = Counter(answer.fact_value for answer in step.answers if answer.fact_value is not None)
    for answer in step.answers:
        if answer.fact_value is not None and answer.fact_value not in known:
            found = f"The answer {answer.text!r} has is={answer.fact_value}, which is no value of {fact}."
            yield _finding(answer.place, found, f"Choose from {', '.join(known)}.")
    for value, times in counted.items():
        if times > 1:
            yield _finding(step.place, f"{times} answers stand for {fact}={value}.", "Let one answer stand for it.")
    if not counted:
        yield _finding(step.place, f"No answer says which {fact} it stands for.", "Write {is=…} behind the answers.")


def _unsure(step: Step) -> Iterator[Finding]:
    without = sum(answer.fact_value is None for answer in step.answers)
    if without != 1:
        found = f"The step {step.title!r} has {without} answers without is=."
        yield _finding(step.place, found, "Give it exactly one, for whoever does not know.")


def _mixed(step: Step, fact: str) -> Iterator[Finding]:
    if fact in TRIED.values():
        yield _finding(step.place, f"{fact} is asked for outside tried.md.", "Take it out: the walk asks by itself.")
    if step.limit or step.reading:
        found = f"The step {step.title!r} asks for a fact and is limited or reads a gauge as well."
        yield _finding(step.place, found, "Make two steps of it.")


def _finding(place: Place, found: str, remedy: str) -> Finding:
    return Finding(place, "fact-answers", found, remedy)
