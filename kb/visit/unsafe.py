"""When must something unsafe be reported, and how is it classed?

The classes and what each asks for are those of the industry's unsafe situations procedure (IGEM/G/11, in the edition
in force); the report is that of RIDDOR 2013, regulation 11(2), on dangerous gas fittings.
"""

from collections.abc import Mapping
from datetime import date, timedelta
from types import MappingProxyType
from typing import Final

CLASSES: Final[Mapping[str, str]] = MappingProxyType(
    {"immediately-dangerous": "Immediately Dangerous", "at-risk": "At Risk"}
)
"""The procedure's own classes."""

PROCEDURE: Final = (
    "By the industry's unsafe situations procedure (IGEM/G/11) in the edition in force. "
    "Immediately Dangerous is disconnected or isolated, At Risk is turned off, each with permission. "
    "Both get a label and a written notice. "
    "Immediately Dangerous and refused, on mains gas, goes to the gas emergency service at once."
)
"""What the procedure asks for, in our words."""

REPORT_DAYS: Final = 14
"""Within so many days a dangerous gas fitting is reported (RIDDOR 2013, regulation 11(2))."""

UNSAFE_END: Final = "unsafe-follow-the-procedure"
"""The end of the engineer's checks that says that something is unsafe."""


def report_by(found: date) -> date:
    """The last day of the report about something that was found on a day."""
    return found + timedelta(days=REPORT_DAYS)
