"""Which homes are meant by a few plain wishes?"""

from dataclasses import dataclass
from typing import Final

from kb.register.due import Month

NO_RANGE: Final = "none"
"""Asks for homes whose appliance belongs to none of the firm's ranges."""

CARDS: Final = {"none": "none printed yet", "some": "printed before"}
"""What may be asked of a home's cards."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """The homes of a range, with a service or an alarm due by the end of a month, in a place, with or without a card.

    What is left empty chooses nothing away; `place` is the beginning of a postcode or of a town's name.
    """

    range: str = ""
    service: Month | None = None
    alarm: Month | None = None
    place: str = ""
    card: str = ""

    @property
    def postcode(self) -> str:
        """The place as the beginning of a postcode: capital letters and figures alone."""
        return "".join(sign for sign in self.place.upper() if sign.isalnum())

    @property
    def everything(self) -> bool:
        """Whether nothing is chosen away."""
        return self == Chosen()
