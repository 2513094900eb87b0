"""In which words is somebody told what their display may mean?"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from kb.appliance import Clears
from kb.codes import Certainty, Safety, Weighed
from kb.panel_values import no_faults

_AGAIN: Final = "Look again in good light."
_DANGER: Final = "a {name} warns of danger. Go outside and call from there. Do not reset."
_ENGINEER: Final = "a {name} needs an engineer. Do not reset. Call us today."
_SERVICE: Final = "a {name} has no fault. It asks for a service. Use it if nothing else is wrong."
_NO_FAULT: Final = "a {name} has no fault. It clears by itself."


def said(typed: str, weighed: Sequence[Weighed]) -> Iterator[str]:
    """What a display may say that leads to no article or forbids a reset, the more pressing first.

    Every sentence says "if" or "may", since an eye or a display may be wrong; `typed` is what a display was said to
    show, and is empty where somebody gave words.
    """
    unknown = bool(typed and weighed) and max(each.reading.certainty for each in weighed) <= Certainty.ONE_SEGMENT
    if unknown:
        yield f"We do not know the code {typed.strip()}. {_AGAIN}"
    for (again, words), shown in _groups(weighed).items():
        yield f"{again}If it shows {either(shown)}, {words}"
    held = [named(each) for each in weighed if each.safety is Safety.LOOK and not each.may_reset]
    if held:
        yield f"It may also show {either(held)}. Until you are sure, do not reset."
    for value in no_faults(typed):
        yield f"It may be no code at all, but {value}."


def named(each: Weighed) -> str:
    """What the display would have to show: a code as it is, words in quotation marks."""
    code = each.reading.code
    return code.code or f"“{code.says}”"


def either(shown: Iterable[str]) -> str:
    """One of several, as it is said."""
    *others, last = dict.fromkeys(shown)
    return f"{', '.join(others)} or {last}" if others else last


def _groups(weighed: Sequence[Weighed]) -> dict[tuple[str, str], list[str]]:
    """What different codes have in common is said once."""
    groups: dict[tuple[str, str], list[str]] = {}
    for each in weighed:
        words = _words(each)
        if words:
            again = "" if each.plausible else f"{_AGAIN} "
            groups.setdefault((again, words.format(name=each.reading.range.name)), []).append(named(each))
    return groups


def _words(each: Weighed) -> str:
    match each.safety:
        case Safety.DANGER:
            return _DANGER
        case Safety.ENGINEER:
            return _ENGINEER
        case Safety.NO_FAULT:
            return _SERVICE if each.reading.code.clears is Clears.ENGINEER else _NO_FAULT
    return ""
