"""Is the flue, with its bends, within the maker's maximum?"""

from collections.abc import Iterator
from typing import Final

from kb.engineering.calculations.others import LENGTH
from kb.engineering.record import BOUNDS, Readings, sound
from kb.engineering.remark import Remark, danger, fine, question
from kb.engineering.slips import guess

_BENDS: Final = (("flue_bends_90", "flue_bend_90_m", "90°"), ("flue_bends_45", "flue_bend_45_m", "45°"))
_NAMES: Final = tuple(name for bends, each, _ in _BENDS for name in (bends, each))


def flue_length(readings: Readings) -> Iterator[Remark]:
    """Straight lengths and bends together stay within what the maker allows."""
    both = sound(readings, "flue_straight_m", "flue_max_m")
    if both is None:
        return
    straight, most = both
    counted = {name: known[0] for name in _NAMES if (known := sound(readings, name)) is not None}
    figures = ("flue_straight_m", *counted, "flue_max_m")
    yield from _uncounted(readings)
    result = LENGTH.answer(
        straight=straight,
        most=most,
        bends_90=counted.get("flue_bends_90"),
        each_90=counted.get("flue_bend_90_m"),
        bends_45=counted.get("flue_bends_45"),
        each_45=counted.get("flue_bend_45_m"),
    )
    told = f"The flue counts as {result['length']:.1f} m; the maker allows {most:g} m."
    if result["spare"] < -1e-9:
        slip = guess(straight, BOUNDS["flue_straight_m"]) if straight > BOUNDS["flue_straight_m"].usual.high else None
        yield danger("flue-length", figures, f"{told} It is too long.", *result.working, slip=slip)
    else:
        yield fine("flue-length", figures, told, *result.working)


def _uncounted(readings: Readings) -> Iterator[Remark]:
    """A bend that counts nothing leaves the length too short."""
    for bends, each, angle in _BENDS:
        number = sound(readings, bends)
        if number is not None and number[0] > 0 and sound(readings, each) is None:
            told = f"There are bends of {angle}, but not what one counts. What do the maker's instructions say?"
            yield question("flue-bends", (bends,), told)
