"""What the firm learns from its calls and jobs: counted values to pictures, tables and sentences.

Nothing here changes a rule, a question or how soon somebody goes; danger is never a matter of counting.
"""

from collections.abc import Callable

from kb.figures.bars import callers, overdue, parts, stops
from kb.figures.calls import calls_by_week
from kb.figures.expected import expected_causes
from kb.figures.figure import Figure
from kb.figures.rows import Counted
from kb.figures.shares import danger_soon, fixed_first_time, solved_by_phone
from kb.figures.weeks import Span

__all__ = ["figures"]


def figures(counted: Counted, span: Span, words: Callable[[str], str]) -> tuple[Figure, ...]:
    """Every picture, in the order they are shown; `words` says what a step is called."""
    return (
        calls_by_week(counted.calls, span),
        solved_by_phone(counted.calls, span),
        danger_soon(counted.calls, span),
        fixed_first_time(counted.jobs, span),
        parts(counted.parts),
        stops(counted.stops, words),
        expected_causes(counted.causes),
        callers(counted.callers, counted.homes),
        overdue(counted.overdue, counted.serviced),
    )
