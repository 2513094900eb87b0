"""Figures as an engineer writes them, and bounds."""

import pytest

from kb.engineering.span import CannotWork, Span, figure, within


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (0.045, "0.045"),
        (29.4, "29.4"),
        (0.0040, "0.004"),
        (1016.0, "1016"),
        (33_900.4, "33900"),
        (0, "0"),
        (-1.5, "-1.5"),
    ],
)
def test_a_figure_has_no_exponent_and_no_idle_noughts(value: float, shown: str) -> None:
    assert figure(value) == shown


def test_a_span_tells_itself_and_what_lies_outside() -> None:
    with pytest.raises(CannotWork) as told:
        within("a charge", 7, Span(0, 6, "bar"))

    assert (told.value.expected, told.value.found) == ("a charge of 0 to 6 bar", "7 bar")
    assert str(told.value).startswith("Expected a charge of 0 to 6 bar, found 7 bar. ")
