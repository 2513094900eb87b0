"""evidence-names-no-answer: evidence is the very answer that gives it

The brief that an engineer reads before setting off is worked out from the answers that were given.
Evidence that names an answer which is not there, because it was reworded, would silently never count.

Write the answer's words exactly, with a link to its step, anchor included: `[Water in the bag](#weigh-the-loss)`.

```good in causes
| Worn pump | 100 | pump | [Sound](on-arrival.md#its-case) ×2 | [Damaged](on-arrival.md#its-case) ×2 |
```

```bad 3 in causes
| Worn pump | 60 | pump | [So sound](on-arrival.md#its-case) ×2 | [Sound](#no-such-step) ×2 |
| Loose wire | 40 | | [Sound](on-arrival.md) ×3 | |
```

```bad 1 in causes
| Worn pump | 100 | pump | [It is working again](ends.md#it-is-working-again) ×2 | |
```
"""

from collections.abc import Iterator
from datetime import date

from kb.article import Audience, Evidence, Step
from kb.findings import Finding
from kb.library import Library


def check(library: Library, today: date) -> Iterator[Finding]:
    """Evidence whose step or answer is not there."""
    for article in library.articles.values():
        for cause in article.causes:
            for evidence in (*cause.points_to, *cause.points_away):
                wrong = _wrong(library, evidence)
                if wrong:
                    yield Finding(
                        evidence.place,
                        "evidence-names-no-answer",
                        f"{wrong} for {cause.name!r}.",
                        "Write the answer's own words and link to its step with its anchor.",
                    )


def _wrong(library: Library, evidence: Evidence) -> str | None:
    step = library.find(evidence.step, Audience.ENGINEER) if evidence.step.anchor else None
    if not isinstance(step, Step):
        return f"{evidence.step} is no step that could give the evidence {evidence.answer!r}"
    if evidence.answer not in {answer.text for answer in step.answers}:
        return f"{evidence.step} has no answer {evidence.answer!r}, which is given as evidence"
    return None
