"""engineers-words: a household reads no engineer's figures and no engineer's words

A figure in millibar or microampere is of no use to somebody without the meter for it, and tempts them to find one.
A part they cannot see makes them open something to look.

Say what can be seen, heard or felt from the outside: "the flame goes out", not "loss of ionisation".
If it cannot be said like that, it belongs under `## For the engineer`.
Bar, degrees, litres and minutes are fine.

```good
### Does the flame go out?

Look at the needle. It belongs over 1 bar.

- [Yes](ends.md#book-a-visit)
- [No](ends.md#nothing-is-wrong)
```

```bad 3
### Does the flame go out?

The electrode may be worn. The inlet needs 21 mbar.

- [The PCB is wet](ends.md#book-a-visit)
- [No](ends.md#nothing-is-wrong)
```
"""

import re
from collections.abc import Iterator
from datetime import date
from typing import Final

from kb.findings import Finding
from kb.library import Library
from kb.rules._texts import household_units

_UNITS: Final = r"\d\s*(?:mbar|millibar|kpa|pa|ppm|µa|μa|ma|mv|volts?|v|ohms?|ω|amps?|a|kw|k)"
_PARTS: Final = (
    r"mbar|ppm|multimeter|manometer|analyser|electrodes?|ioni[sz]ation|pcb|circuit board|gas valve assembly|venturi|"
    r"heat exchangers?|plate exchangers?|expansion vessels?|diverter(?: valve)?s?|motori[sz]ed valves?|zone valves?|"
    r"thermistors?|ntc|flow switch(?:es)?|pressure switch(?:es)?|combustion chamber|burner door|sump|siphon|syphon|"
    r"air[ /]gas ratio|flue gas(?:es)?|working pressure|standing pressure|tightness test|let-by|lock-?up pressure|"
    r"polarity|continuity|insulation test|live terminals?|schrader|at risk|immediately dangerous"
)
_WORD: Final = re.compile(rf"(?<![\w.])(?:{_UNITS}|{_PARTS})(?!\w)", re.IGNORECASE)


def check(library: Library, today: date) -> Iterator[Finding]:
    """Words and figures in household texts that only an engineer can use."""
    for unit in household_units(library):
        for text in unit.texts:
            for word in dict.fromkeys(match[0].lower() for match in _WORD.finditer(text.words)):
                yield Finding(
                    text.place,
                    "engineers-words",
                    f"A household reads {word!r}.",
                    "Say what can be seen, heard or felt, or move it under `## For the engineer`.",
                )
