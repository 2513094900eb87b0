"""How long does a person take for what they did to fill in a record?

The keystroke-level model says it: S. K. Card, T. P. Moran and A. Newell, "The keystroke-level model for user
performance time with interactive systems", Communications of the ACM 23(7), 1980; its figures are from memory.
It was made for a skilled person with a mouse and a keyboard; where it offers several figures we take the slower, since
a thumb is slower than ten fingers.
What somebody measures meanwhile takes the time it takes, with paper as well, and is not counted.
"""

from dataclasses import dataclass, field
from typing import Final

KEY: Final = 0.5
"""Seconds for a key: that of somebody who types random letters, where words by an average typist take 0.2."""

POINT: Final = 1.1
"""Seconds to point at something on a screen, here with a thumb."""

PRESS: Final = 0.1
"""Seconds to press on what was pointed at."""

HOME: Final = 0.4
"""Seconds to bring a hand to the keyboard, here for the thumb to come down to it and back up."""

DECIDE: Final = 1.35
"""Seconds to get ready in the mind, before each thing that is chosen and each field that is begun."""

FIVE_MINUTES: Final = 300.0


@dataclass
class Count:
    """What a person did: things chosen, fields typed into, each how often, letters, and pages waited for.

    `onward` counts fields that were reached by the keyboard's own key for the next one, which is among the letters.
    """

    taps: int = 0
    typed: dict[str, int] = field(default_factory=dict)
    letters: int = 0
    onward: int = 0
    pages: int = 0
    waited: float = 0.0

    @property
    def fields(self) -> int:
        """How many times a field was begun."""
        return sum(self.typed.values())

    @property
    def seconds(self) -> float:
        """How long it takes, by the model, with what the pages themselves took."""
        chosen = self.taps * (DECIDE + POINT + PRESS)
        begun = self.fields * DECIDE + (self.fields - self.onward) * (POINT + PRESS + HOME)
        return chosen + begun + self.letters * KEY + self.waited

    def __str__(self) -> str:
        return (
            f"{self.taps} taps, {self.fields} fields begun ({self.onward} by the next key), {self.letters} letters, "
            f"{self.pages} pages in {self.waited:.1f} s: {self.seconds:.0f} s"
        )
