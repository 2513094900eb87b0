"""The bounds of an answer in a home's own figures."""

from kb.article import Bounds
from kb.facts import GaugeMarks


def with_figures(bounds: Bounds | None, marks: GaugeMarks) -> str:
    """The bounds of an answer in this home's figures, where they are given by its marks."""
    if bounds is None or not {bounds.floor, bounds.ceiling} & {"low", "aim", "high"}:
        return ""
    least = None if bounds.floor is None else f"{marks.bar(bounds.floor):g}"
    most = None if bounds.ceiling is None else f"{marks.bar(bounds.ceiling):g}"
    if least is None:
        return f"{most} bar or less" if bounds.ceiling_in else f"under {most} bar"
    if most is None:
        return f"{least} bar or more" if bounds.floor_in else f"over {least} bar"
    return f"{least} to {most} bar" if bounds.ceiling_in else f"from {least} to just under {most} bar"
