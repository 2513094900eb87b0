"""forbidden-act: no household is asked to do what can kill

Opening the case, turning gas back on, a flame, boiling water, a ladder or a chair to stand on, staying inside with a
smell, a tool, a fuse, a silenced alarm: people have died of each of them.

What counts is what a sentence asks for, not which words it holds.
"Open the cover" and "you can take the front off" ask; "never open the cover", "if the cover is off", "have you opened
it?" and "the engineer opens the cover" do not.
"It" is read as what was named last: "Turn the gas off. Wait. Turn it back on." asks for gas.
Light one hob ring, turn a dial, open the door of the meter box or the cover of a battery: these are made for a
household's hands, and pass.
The lid of a consumer unit may be opened, but not taken off, which bares live parts.

A hint that asks for nothing ("the cover comes off easily") is not seen: read for those yourself.

Take the sentence out, or make a plain prohibition of it.
If the sentence is harmless, say it in other words: what the rule misreads, a tired person misreads too.

```good
### Is the pipe frozen?

Never use boiling water, a flame or a ladder.
Do not open the case. Only an engineer may take the cover off.
Open the door of the meter box.

- [It drips](ends.md#nothing-is-wrong)
- [It does not](ends.md#book-a-visit)
```

```bad 3
### Is the pipe frozen?

Pour boiling water over the pipe. You can use a ladder.

- [Open the cover](ends.md#nothing-is-wrong)
- [I opened the cover](ends.md#book-a-visit)
```

```bad 1
### Free the gas valve

Turn the gas valve off. Wait for a minute. Then turn it back on.

- [It turns](ends.md#nothing-is-wrong)
- [It does not](ends.md#book-a-visit)
```

```bad 1 in card
- Take the front off and look.
- Ring us if it stays cold.
```

```bad 1 in ends
{pace=today call=firm}
### A bad smell

If you smell gas, stay indoors. Ring the firm.
```

```bad 1 in region
[[orders.hurt]]
do = "Go back in for your coat."
source = "common practice"
checked = 2026-11-20
```
"""

from collections.abc import Iterator
from datetime import date

from kb.acts import forbidden_acts
from kb.findings import Finding
from kb.library import Library
from kb.rules._texts import household_units


def check(library: Library, today: date) -> Iterator[Finding]:
    """Sentences that ask a household to do what it must never do."""
    for unit in household_units(library):
        for sentence, act in forbidden_acts(unit.words):
            yield Finding(
                unit.place_of(sentence),
                "forbidden-act",
                f"{sentence!r} asks a household to {act}.",
                "Take it out, or make a plain prohibition of it.",
            )
