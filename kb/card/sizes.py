"""In which sizes is a card printed, and how large may its words be in each?"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

Size: TypeAlias = Literal["a6", "id1", "a5"]
Side: TypeAlias = Literal["front", "back"]

BOTH: Final[tuple[Side, ...]] = ("front", "back")

STEP_PT: Final = 0.25
"""By how much a size of letters changes at least."""

SLACK_MM: Final = 0.01
"""By how much a side may be too long before it counts: what sums of lengths are out by."""


@dataclass(frozen=True, slots=True)
class Sizing:
    """The sizes in points that a side's other words may have, and the one that is tried first.

    `shrinking` is the power of how much too long a side is by which its words are set smaller.
    Words that wrap grow with the square of their size, and pictures do not shrink with the words.
    """

    most: float
    first: float
    least: float
    shrinking: float


@dataclass(frozen=True, slots=True)
class Format:
    """One size of card, in millimetres and points.

    `lines` gives each line that shrinks to its width its size to begin with and the smallest one allowed.
    `captions` is the size of what only names something else, and `least_gap` the least room between two parts.
    `gauge` is how wide the gauge is drawn; its letters are then over `smallest`.
    `line` is how many letters of a place mostly come on one line.
    `logo` is the box that the firm's logo keeps to, and `shares` the room a part may take before it is named as
    too long, by its kind.
    """

    page: tuple[float, float]
    margin: float
    smallest: float
    captions: float
    lines: Mapping[str, tuple[float, float]]
    sides: Mapping[Side, Sizing]
    least_gap: float
    most_between: float
    qr: float
    gauge: float
    line: int
    logo: tuple[float, float]
    shares: Mapping[str, float]


A6: Final = Format(
    page=(105, 148),
    margin=5,
    smallest=7.5,
    captions=8,
    lines={
        "danger-title": (14, 11),
        "emergency": (21, 16),
        "firm": (15, 11),
        "phone": (30, 20),
        "address": (10.5, 8.5),
    },
    sides={"front": Sizing(10, 10, 8.5, 4), "back": Sizing(9.25, 8.5, 8.5, 0.75)},
    least_gap=2.3,
    most_between=6,
    qr=29,
    gauge=50,
    line=52,
    logo=(26, 10),
    shares={"front": 56, "fault": 40, "reset": 42, "never": 32, "place": 9},
)
"""A6 upright (ISO 216)."""

ID1: Final = Format(
    page=(85.6, 53.98),
    margin=3,
    smallest=7,
    captions=7,
    lines={"danger-title": (11, 8), "emergency": (16, 11), "firm": (12, 8.5), "phone": (20, 14), "address": (8.5, 7)},
    sides={"front": Sizing(8.5, 8, 7, 2), "back": Sizing(8.5, 8, 7, 2)},
    least_gap=1,
    most_between=2.5,
    qr=22.5,
    gauge=0,
    line=60,
    logo=(22.5, 7),
    shares={"front": 44, "back": 44},
)
"""The size of a bank card (ISO/IEC 7810).

Seven points of this typeface are letters whose x is over 1.2 mm high.
That is the least that Regulation (EU) No 1169/2011, article 13, allows on food; no rule names one for cards.
"""

A5: Final = Format(
    page=(148, 210),
    margin=7,
    smallest=16,
    captions=16,
    lines={"danger-title": (22, 17), "emergency": (30, 20), "firm": (22, 17), "phone": (36, 28), "address": (17, 16)},
    sides={"front": Sizing(17, 16, 16, 2), "back": Sizing(18, 16, 16, 1)},
    least_gap=3,
    most_between=6,
    qr=42,
    gauge=0,
    line=35,
    logo=(40, 14),
    shares={"front": 100, "fault": 60, "reset": 60, "never": 50, "place": 15},
)
"""A5 upright (ISO 216) in large print: no letter under 16 points (common practice of sight-loss charities)."""

FORMATS: Final[Mapping[Size, Format]] = {"a6": A6, "id1": ID1, "a5": A5}
