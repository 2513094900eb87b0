"""Every calculation: complete, with a manual, and right in its working lines."""

import pytest

from kb.engineering.asking import ask
from kb.engineering.calculation import Calculation, Choice, Figure, Result
from kb.engineering.calculations import CALCULATIONS
from kb.engineering.manual import page, pages
from kb.engineering.span import CannotWork

TYPED = {
    "water-growth": "system=100",
    "static-head": "height=5.5",
    "head-height": "bar=1",
    "pressure-loss": "before=1.5 after=1.0 hours=48 vessel=8 charge=0.75",
    "vessel-holds": "vessel=8 charge=0.75 bar=1",
    "vessel-size": "system=100 charge=0.75",
    "hot-pressure": "fill=1 charge=0.75 vessel=8 system=100",
    "highest-fill": "charge=0.75 vessel=8 system=60",
    "gas-rate": "volume=0.045 seconds=60",
    "gas-drop": "at-meter=20.5 at-appliance=19.8",
    "co-ratio": "co=350 co2=8.75",
    "excess-air": "co2=9",
    "dew-point": "co2=9 return=45",
    "condensate": "gross=30 co2=9 leaving=45",
    "hot-water-power": "flow=9.8 cold=10 hot=45",
    "hot-water-flow": "kw=24 cold=10 hot=45",
    "hot-water-rise": "kw=24 flow=9.8 cold=10",
    "heating-power": "flow=17 flow-at=70 return-at=50",
    "heating-flow": "kw=24 flow-at=70 return-at=50",
    "sensor-resistance": "celsius=60",
    "sensor-temperature": "ohms=2463",
    "flue-length": "straight=3.5 bends-90=2 each-90=1 most=8",
}

# What comes out, by the worked examples that the tests of each subject name a source for.
EXPECTED = {
    "water-growth": ("litres", 2.872),
    "static-head": ("bar", 0.539),
    "head-height": ("height", 10.2),
    "pressure-loss": ("litres", 0.7),
    "vessel-holds": ("litres", 1.0),
    "vessel-size": ("least", 5.75),
    "hot-pressure": ("hot", 2.392),
    "highest-fill": ("fill", 1.446),
    "gas-rate": ("gross", 29.4),
    "gas-drop": ("drop", 0.7),
    "co-ratio": ("ratio", 0.0040),
    "excess-air": ("excess", 26.84),
    "dew-point": ("dew", 54.59),
    "condensate": ("most", 4.365),
    "hot-water-power": ("kw", 23.92),
    "hot-water-flow": ("flow", 9.84),
    "hot-water-rise": ("rise", 35.1),
    "heating-power": ("kw", 23.4),
    "heating-flow": ("flow", 17.4),
    "sensor-resistance": ("ohms", 2463),
    "sensor-temperature": ("celsius", 60.0),
    "flue-length": ("length", 5.5),
}

ALL = pytest.mark.parametrize("calculation", CALCULATIONS.values(), ids=CALCULATIONS)


def typed(words: str) -> dict[str, str]:
    return dict(word.split("=") for word in words.split())


def worked(name: str, words: str) -> Result:
    result = ask(CALCULATIONS[name], typed(words))
    assert isinstance(result, Result), result
    return result


def test_every_calculation_has_an_example_here() -> None:
    assert TYPED.keys() == EXPECTED.keys() == CALCULATIONS.keys()


@ALL
def test_its_example_comes_out(calculation: Calculation) -> None:
    name, value = EXPECTED[calculation.name]

    assert worked(calculation.name, TYPED[calculation.name])[name] == pytest.approx(value, rel=3e-3)


@ALL
def test_the_working_ends_in_what_came_out(calculation: Calculation) -> None:
    result = worked(calculation.name, TYPED[calculation.name])
    name, _ = EXPECTED[calculation.name]
    shown = next(str(output) for output in result.outputs if output.name == name)

    assert shown.split()[0] in " ".join(result.working)


@ALL
def test_every_formula_has_a_whole_manual_page(calculation: Calculation) -> None:
    for each in pages(calculation):
        assert all((each.says, each.formula, each.units, each.range, each.errors, each.source))


@ALL
def test_its_question_and_labels_read_as_sentences(calculation: Calculation) -> None:
    assert calculation.question.endswith("?")
    assert all(each.help.endswith(".") for each in calculation.inputs if each.help)
    assert all(each.label[0].isupper() for each in calculation.inputs)


@ALL
def test_what_is_usual_lies_within_its_span(calculation: Calculation) -> None:
    for each in calculation.inputs:
        if isinstance(each, Figure):
            assert each.usual is None or each.usual in each.span
        else:
            assert each.usual in each.options


@ALL
def test_a_figure_that_is_needed_is_asked_for(calculation: Calculation) -> None:
    needed = [each.name for each in calculation.inputs if isinstance(each, Figure) and each.required]

    problems = ask(calculation, {})

    assert isinstance(problems, tuple)
    assert [problem.input for problem in problems if problem.input] == needed
    assert problems


@ALL
def test_the_spans_of_a_choice_name_a_choice(calculation: Calculation) -> None:
    chosen = {
        f"{each.name}={option}" for each in calculation.inputs if isinstance(each, Choice) for option in each.options
    }

    assert {when for each in calculation.inputs if isinstance(each, Figure) for when in each.spans} <= chosen


def test_a_function_without_a_part_of_its_manual_is_noticed() -> None:
    def bare() -> None:
        """Formula: none."""

    with pytest.raises(KeyError):
        page(bare)


def test_propane_and_an_imperial_meter() -> None:
    # 0.02 m³ of propane in 40 s at 95.65 MJ/m³ (ISO 6976): 47.8 kW gross, 44.0 net.
    propane = worked("gas-rate", "fuel=lpg volume=0.02 seconds=40 cv=95.65")
    feet = worked("gas-rate", "meter=imperial volume=1 seconds=38 cv=38.7493")

    assert (propane["gross"], propane["net"]) == (pytest.approx(47.825), pytest.approx(43.997, abs=0.01))
    assert feet["gross"] == pytest.approx(28.875, abs=1e-3)
    assert feet.working[0] == "1 ft³ × 0.028317 = 0.02832 m³"


def test_a_calorific_value_that_was_taken_is_told() -> None:
    assert "39.2 MJ/m³ was taken" in worked("gas-rate", "volume=0.045 seconds=60").notes[0]
    assert "was taken" not in " ".join(worked("gas-rate", "volume=0.045 seconds=60 cv=39.3").notes)


def test_the_working_of_the_gas_rate_is_what_an_engineer_writes() -> None:
    assert worked("gas-rate", "volume=0.045 seconds=60 cv=39.2").working == (
        "0.045 m³ in 60 s × 39.2 MJ/m³ = 29.4 kW gross",
        "29.4 ÷ 1.11 = 26.5 kW net",
    )


def test_oxygen_stands_in_for_carbon_dioxide() -> None:
    # Methane with 30 % excess air: 5.26 % O₂ and 8.76 % CO₂.
    assert worked("excess-air", "o2=5.26")["excess"] == pytest.approx(30, abs=0.1)


@pytest.mark.parametrize(("words", "found"), [("co2=9 o2=5", "both"), ("", "neither")])
def test_one_of_the_two_is_enough_and_needed(words: str, found: str) -> None:
    problems = ask(CALCULATIONS["excess-air"], typed(words))

    assert isinstance(problems, tuple)
    assert problems[0].found == found


def test_a_return_above_the_dew_point_does_not_condense() -> None:
    assert worked("dew-point", "co2=9 return=60").working[-1].endswith("it does not condense")
    assert worked("dew-point", "co2=9 return=45").working[-1].endswith("it condenses")


def test_a_fill_below_the_charge_leaves_the_vessel_empty() -> None:
    result = worked("vessel-holds", "vessel=8 charge=1 bar=0.8")

    assert result["litres"] == 0
    assert "no water gets in" in result.working[0]


@pytest.mark.parametrize(("system", "reserve"), [(100, 0.2), (1000, None)])
def test_a_vessel_with_its_reserve_holds_both(system: float, reserve: float | None) -> None:
    result = CALCULATIONS["vessel-size"].answer(system=system, charge=0.75)
    size = result["with-reserve"]
    spare = reserve * size if reserve else max(3.0, 0.005 * system)

    assert size * (2.5 - 0.75) / 3.5 == pytest.approx(result["grown"] + spare)


def test_called_with_figures_a_lacking_one_is_named() -> None:
    with pytest.raises(CannotWork, match="Give seconds"):
        CALCULATIONS["gas-rate"].answer(volume=0.045)
