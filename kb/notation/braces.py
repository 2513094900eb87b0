"""What the braces of a step, an answer and an end mean."""

from collections.abc import Callable, Mapping
from typing import Final, TypeVar

from kb.article import Bounds, Call, Limit, Mark, Pace
from kb.facts import READINGS, TRIED, values_of
from kb.notation.desk import Desk
from kb.notation.markdown import target_of

STEP: Final = ("fact", "reading", "tries", "at-most", "then")
END: Final = ("pace", "call", "emergency")
PASSAGE: Final = ("fact", "is")
ANSWER: Final = ("is", "below", "from", "above", "to")
MARKS: Final[Mapping[str, Mark]] = {"low": "low", "aim": "aim", "high": "high"}

Value = TypeVar("Value")


def only(written: Mapping[str, str], allowed: tuple[str, ...], what: str, line: int, desk: Desk) -> None:
    """Note every name in braces that does not belong there."""
    for name in written:
        if name not in allowed:
            desk.note(
                line,
                "unknown-brace",
                f"{name!r} is written in the braces of {what}.",
                f"{what.capitalize()} may carry {', '.join(allowed)}.",
            )


def choice(
    written: Mapping[str, str], name: str, known: Callable[[str], Value | None], choices: str, line: int, desk: Desk
) -> Value | None:
    """The value of a name in braces; a value that is not one of the choices is a finding."""
    if name not in written:
        return None
    value = known(written[name])
    if value is None:
        desk.note(line, "unknown-brace", f"{name}={written[name]} is not known.", f"Choose from {choices}.")
    return value


def fact_of(written: Mapping[str, str], line: int, desk: Desk) -> str | None:
    """The fact a step asks for."""
    return choice(written, "fact", lambda name: name if values_of(name) else None, "the table of facts", line, desk)


def values_of_fact(written: Mapping[str, str], fact: str | None, line: int, desk: Desk) -> tuple[str, ...]:
    """The values of its fact for which a passage is meant, written with spaces between them."""
    values = tuple(written.get("is", "").split())
    known = (values_of(fact) if fact else None) or ()
    if bool(fact) != bool(values) or set(values) - set(known):
        desk.note(
            line,
            "unknown-brace",
            f"A passage is for homes with {written.get('fact', 'no fact')} = {written.get('is', 'nothing')}.",
            f'Write {{fact=… is="…"}} with values from {", ".join(known) or "the table of facts"}, or neither.',
        )
    return values


def reading_of(written: Mapping[str, str], line: int, desk: Desk) -> str | None:
    """The gauge a step reads."""
    return choice(written, "reading", lambda name: name if name in READINGS else None, ", ".join(READINGS), line, desk)


def pace_of(written: Mapping[str, str], line: int, desk: Desk) -> Pace | None:
    """How soon an end says somebody must act."""
    known = {pace.value: pace for pace in Pace}
    return choice(written, "pace", known.get, ", ".join(known), line, desk)


def call_of(written: Mapping[str, str], line: int, desk: Desk) -> Call | None:
    """Whom an end says to call."""
    known = {call.value: call for call in Call}
    return choice(written, "call", known.get, ", ".join(known), line, desk)


def limit_of(written: Mapping[str, str], article: str, line: int, desk: Desk) -> Limit | None:
    """How often a step may be passed, if its braces say so."""
    if not {"tries", "at-most", "then"} & set(written):
        return None
    action = choice(written, "tries", lambda name: name if name in TRIED else None, ", ".join(TRIED), line, desk)
    then = target_of(written.get("then", ""), article)
    if then is None:
        desk.note(
            line,
            "limit-without-then",
            "A limited step does not say where to go when its limit is used up.",
            'Add then="ends.md#…" to its braces.',
        )
    at_most = written.get("at-most", "")
    if not at_most.isascii() or not at_most.isdigit() or not 1 <= int(at_most) <= 3:
        desk.note(
            line,
            "limit-without-number",
            f"A limited step has at-most={at_most or 'nothing'}.",
            "Say at-most=1, 2 or 3; nothing in a home is safe to try more often than that.",
        )
        return None
    return Limit(int(at_most), then, action)


def bounds_of(written: Mapping[str, str], line: int, desk: Desk) -> Bounds | None:
    """The readings an answer stands for, if its braces say so."""
    edges = {name: _mark(written[name]) for name in ("below", "from", "above", "to") if name in written}
    if not edges:
        return None
    wrong = [name for name, mark in edges.items() if mark is None]
    if wrong or {"from", "above"} <= set(edges) or {"below", "to"} <= set(edges):
        said = " ".join(f"{name}={written[name]}" for name in wrong or edges)
        desk.note(
            line,
            "unknown-bounds",
            f"The bounds {said} cannot be read.",
            "Give at most one of from/above and one of to/below, each a figure in quotes or low, aim or high.",
        )
        return None
    return Bounds(
        floor=edges.get("from", edges.get("above")),
        floor_in="from" in edges,
        ceiling=edges.get("to", edges.get("below")),
        ceiling_in="to" in edges,
    )


def _mark(written: str) -> Mark | None:
    if written in MARKS:
        return MARKS[written]
    try:
        return float(written)
    except ValueError:
        return None
