"""In which words is somebody told what their display may mean?"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kb.appliance import Clears
from kb.codes import Certainty, Safety, Weighed
from kb.panel_values import no_faults
from kb.spoken import spelt_out

_AGAIN: Final = "Look again in good light."
_DANGER: Final = "a {name} warns of danger. Go outside and call from there. Do not reset."
_ENGINEER: Final = "a {name} needs an engineer. Do not reset. Call us today."
_SERVICE: Final = "a {name} has no fault. It asks for a service. Use it if nothing else is wrong."
_NO_FAULT: Final = "a {name} has no fault. It clears by itself."


@dataclass(frozen=True, slots=True)
class CodeWords:
    """What somebody is told: what we do not know, what forbids a reset, and what is perhaps no fault at all.

    Every sentence says "if" or "may", since an eye or a display may be wrong.
    """

    unknown: str
    stop: tuple[str, ...]
    calm: tuple[str, ...]

    @property
    def all(self) -> tuple[str, ...]:
        """Everything, in the order to read it out."""
        return (*filter(None, [self.unknown]), *self.stop, *self.calm)


def said(typed: str, weighed: Sequence[Weighed]) -> CodeWords:
    """What is told of what a display was said to show; `typed` is empty where somebody gave words."""
    pressing = [each for each in weighed if each.safety <= Safety.ENGINEER]
    harmless = [each for each in weighed if each.safety is Safety.NO_FAULT]
    values = tuple(f"It may be no code at all, but {value}." for value in no_faults(typed))
    surest = max((each.reading.certainty for each in weighed), default=Certainty.SAME)
    doubtful = bool(typed) and surest <= Certainty.ONE_SEGMENT
    return CodeWords(
        unknown=" ".join(_unknown(typed, surest, values)) if doubtful else "",
        stop=(*_each_once(pressing), *_held(weighed)),
        calm=(*_each_once(harmless), *(() if doubtful else values)),
    )


def _unknown(typed: str, surest: Certainty, values: Iterable[str]) -> Iterator[str]:
    """What is likelier than that the eye or the display is wrong comes before it."""
    if surest is not Certainty.POINT:
        yield f"We do not know the code {spelt_out(typed) or typed.strip()}."
    yield from values
    yield _AGAIN


def _held(weighed: Sequence[Weighed]) -> Iterator[str]:
    held = [named(each) for each in weighed if each.safety is Safety.LOOK and not each.may_reset]
    if held:
        yield f"It may also show {either(held)}. Until you are sure, do not reset."


def named(each: Weighed) -> str:
    """What the display would have to show: a code as it is, words in quotation marks."""
    code = each.reading.code
    return code.code or f"“{code.says}”"


def either(shown: Iterable[str]) -> str:
    """One of several, as it is said."""
    *others, last = dict.fromkeys(shown)
    return f"{', '.join(others)} or {last}" if others else last


def _each_once(weighed: Iterable[Weighed]) -> Iterator[str]:
    """What different codes have in common is said once."""
    groups: dict[tuple[str, str], list[str]] = {}
    for each in weighed:
        again = "" if each.plausible else f"{_AGAIN} "
        words = _words(each).format(name=each.reading.range.name)
        groups.setdefault((again, words), []).append(named(each))
    for (again, words), shown in groups.items():
        yield f"{again}If it shows {either(shown)}, {words}"


def _words(each: Weighed) -> str:
    match each.safety:
        case Safety.DANGER:
            return _DANGER
        case Safety.ENGINEER:
            return _ENGINEER
    return _SERVICE if each.reading.code.clears is Clears.ENGINEER else _NO_FAULT
