"""In which words does the card speak where no article, region, firm or home has its own?

The only module to translate, next to the articles, for a card in another language.
"""

import re
from collections.abc import Mapping
from typing import Final

TITLE: Final = "Heating card: {appliance}, {firm}"
DEMO_WORD: Final = "DEMO"
DEMO: Final = "Invented firm and home. Ring none of these numbers."

DANGER: Final = "Smell gas, or the alarm sounds?"
DANGER_OIL: Final = "Smell oil, fumes or gas, or the alarm sounds?"
ILL: Final = "If anyone is ill, or there is a fire, ring"
STAY_OUT: Final = "Stay out until they tell you it is safe."
LPG_ALSO: Final = "or the number on your tank or bottles"
OIL_ALSO: Final = "and for oil ring us too"

NEEDED: Final[Mapping[str, re.Pattern[str]]] = {
    "flames": re.compile(r"\bno\b.*\bflames?\b", re.I),
    "switches": re.compile(r"\b(no|not|never)\b.*\bswitch", re.I),
    "getting out": re.compile(r"^(get|take) every\w+\b.*\bout\b", re.I),
}
"""What the danger panel must say beside the call, and how a region's line that says it is known."""

ILL_LINE: Final = re.compile(r"^if any(one|body)\b.*\{emergency\}", re.I)
CALL_LINE: Final = re.compile(r"\bout(side)?\b.*\{gas\}", re.I)
STAY_OUT_LINE: Final = re.compile(r"^stay out\b", re.I)

INVITATION: Final = "For anything else with the heating, ring"
OUT_OF_HOURS: Final = "Out of hours: {number}"
MOBILE: Final = "Mobile: {number}"
TEXTS: Final = "Texts: {number}"
ALWAYS: Final = "Day and night, every day"

AIM: Final = "Aim for {bar} bar with the radiators cold"
NO_GAUGE: Final = "No pressure gauge here"
NO_GAUGE_MORE: Final = ("This heating fills by itself from a small tank above.", "Do not look for a tap to fill it.")

PAGE: Final = "Help for this home, step\N{NO-BREAK SPACE}by\N{NO-BREAK SPACE}step"
QR_ALT: Final = "QR code that opens {page}"
TYPE: Final = "Or type"

CARDS_TITLE: Final = "Heating cards, {firm}"
LOGO_ALT: Final = "Logo of {firm}"

FIRST: Final = "Smell, alarm or feeling ill? Turn the card over first."
RESET: Final = "If you reset the boiler"
RESET_ONCE: Final = "Once only."
RESET_TWICE: Final = "At most twice, five minutes apart."
RESET_NEVER: Final = "Never with a smell, an alarm, soot, a bang, a drip or ice."
NO_RESET_TITLE: Final = "Do not reset the boiler"
NO_RESET: Final = ("Only an engineer may reset this one.", "Leave it off and ring us.")

NEVER: Final = "Never do this"
NEVER_CASE: Final = "Never open the boiler's case."
NEVER_GAS: Final = "Never turn gas on after a smell or alarm."
NEVER_OIL: Final = "Never turn oil on after a smell or alarm."
NEVER_FLUE: Final = "Never block a flue or air vent."
NEVER_FLAME: Final = "Never use flame or boiling water."
NEVER_CLIMB: Final = "Never climb to a pipe or flue."

PLACE: Final[Mapping[str, str]] = {
    "gas-valve": "Gas off",
    "stop-tap": "Water off",
    "switch": "Boiler off",
    "condensate-end": "Waste pipe",
}
"""The places on the card, the most needed first."""

OIL_VALVE: Final = "Oil off"

SERVICE: Final = "Next service: {day} {month} {year}"
NO_SERVICE: Final = "Next service: ask us"
OWN_INSTRUCTIONS: Final = "The appliance's own instructions come first."

MONTHS: Final = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
DAYS: Final[Mapping[str, str]] = {
    "mon": "Monday", "tue": "Tuesday", "wed": "Wednesday", "thu": "Thursday", "fri": "Friday",
    "sat": "Saturday", "sun": "Sunday",
}  # fmt: skip
DAYS_SPAN: Final = "{first} to {last}"
EVERY_DAY: Final = "Every day"

MENTIONS: Final[Mapping[str, re.Pattern[str]]] = {
    "reset": re.compile(r"\breset", re.I),
    "top-up": re.compile(r"\btop(s|ped)?\b.{0,12}\bup\b|\bfill", re.I),
    "thaw": re.compile(r"\bthaw|\bwarm it\b", re.I),
    "breaker": re.compile(r"\bpush it on\b|\bbreaker\b", re.I),
    "meter-restore": re.compile(r"\bmeter's own button\b", re.I),
    "water-release": re.compile(r"\blet (some )?water out\b|\brelease\b", re.I),
    "relight": re.compile(r"\brelight|\blight (it|the pilot)\b", re.I),
}
"""How a card line that tells people to try something limited is known."""

REPEATS: Final = re.compile(r"\bpress reset\b.*\b(twice|once)\b", re.I)
"""How a line is known that gives the general rule about resets, which has a place of its own on the card."""

NAMES_OIL: Final = re.compile(r"\boil\b", re.I)
"""How a line is known that gives oil boilers a rule of their own."""

FORBIDS: Final = re.compile(r"\b(do not|never|no more)\b[^.?!]*", re.I)
"""The part of a line that says what not to do."""

FOREIGN: Final[Mapping[tuple[str, str], re.Pattern[str]]] = {
    ("system", "vented"): re.compile(
        r"\bgauge|\bpressure\b|\bneedle|\btop(ped)?\b.{0,12}\bup\b|\bfill|\bhose\b|\bbar\b", re.I
    ),
    ("meter", "none"): re.compile(r"\bmeter|\bcredit\b", re.I),
    ("condensate", "inside"): re.compile(r"\bwaste pipe outside\b|\bwarm it\b", re.I),
    ("meter", "credit"): re.compile(r"\bcredit\b|\bmeter's\b|\bmeter shuts\b", re.I),
}
"""What a home with this fact does not have, as a card line speaks of it."""
