"""What was typed for a calculation: read with its unit, or told with what to do."""

import pytest

from kb.engineering.asking import Problem, ask, read_figure
from kb.engineering.calculation import Result
from kb.engineering.calculations import CALCULATIONS
from kb.engineering.span import Span

RATE = CALCULATIONS["gas-rate"]
METRES = Span(0, 10, "m³")


@pytest.mark.parametrize("text", ["0.045", " 0.045 ", ".045", "0.045m3", "0.045 m³", "+0.045 M3"])
def test_a_number_is_read_with_and_without_its_unit(text: str) -> None:
    assert read_figure("volume", text, METRES) == 0.045


@pytest.mark.parametrize(
    ("text", "span", "value"),
    [
        ("60 C", Span(0, 100, "°C"), 60),
        ("−5 °C", Span(-40, 100, "°C"), -5),
        ("2463 ohm", Span(10, 1e6, "Ω"), 2463),
        ("30 kW", Span(0, 100, "kW gross"), 30),
    ],
)
def test_units_as_people_type_them(text: str, span: Span, value: float) -> None:
    assert read_figure("figure", text, span) == value


@pytest.mark.parametrize("text", ["abc", "0,045", "1.2.3", "", "nan", "inf", "1e5"])
def test_what_is_no_number_is_told(text: str) -> None:
    problem = read_figure("volume", text, METRES)

    assert isinstance(problem, Problem)
    assert problem.input == "volume"
    assert problem.found


def test_a_figure_out_of_its_span_is_told_with_its_unit() -> None:
    assert str(read_figure("volume", "45", METRES)) == (
        "volume: Expected 0 to 10 m³, found 45 m³. Look at the unit and at the decimal point."
    )


def test_feet_on_a_metric_meter_are_told_with_the_choice_that_takes_them() -> None:
    problems = ask(RATE, {"volume": "1 ft3", "seconds": "38"})

    assert isinstance(problems, tuple)
    assert str(problems[0]) == (
        "volume: Expected a number in m³, found '1 ft3'. Give it in that unit, or choose meter=imperial."
    )


def test_every_mistake_is_told_at_once() -> None:
    problems = ask(RATE, {"volume": "much", "meter": "round", "colour": "red", "cv": "400"})

    assert isinstance(problems, tuple)
    assert {problem.input for problem in problems} == {"volume", "meter", "colour", "cv", "seconds"}


def test_a_span_follows_the_choice() -> None:
    assert isinstance(ask(RATE, {"volume": "0.02", "seconds": "40", "fuel": "lpg", "cv": "95"}), Result)
    assert isinstance(ask(RATE, {"volume": "0.02", "seconds": "40", "cv": "95"}), tuple)


def test_an_empty_text_is_no_figure() -> None:
    assert isinstance(ask(RATE, {"volume": "0.045", "seconds": "60", "cv": "  "}), Result)


def test_figures_that_contradict_are_told_without_an_exception() -> None:
    problems = ask(CALCULATIONS["hot-water-power"], {"flow": "10", "cold": "45", "hot": "10"})

    assert isinstance(problems, tuple)
    assert str(problems[0]) == (
        "Expected hot out above cold in, found 10 °C and 45 °C. See whether the two are swapped."
    )
