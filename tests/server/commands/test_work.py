"""`tundish work` as a person runs it."""

import pytest
from typer.testing import CliRunner

from kb.engineering.calculations import CALCULATIONS
from server.cli import app


def run(*words: str) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, ["work", *words])
    return result.exit_code, result.stdout, result.stderr


def test_alone_it_lists_every_calculation() -> None:
    status, said, _ = run()

    assert status == 0
    assert [line.split()[0] for line in said.splitlines()] == list(CALCULATIONS)


@pytest.mark.parametrize(
    "words",
    [
        ("--volume", "0.045", "--seconds", "60"),
        ("--volume=0.045", "--seconds=60"),
        ("volume=0.045", "seconds=60"),
        ("volume=0.045m3", "--seconds", "60", "meter=metric"),
    ],
)
def test_the_gas_rate_with_its_working(words: tuple[str, ...]) -> None:
    status, said, _ = run("gas-rate", *words)

    assert status == 0
    assert "Heat input, net                     26.5 kW" in said
    assert "0.045 m³ in 60 s × 39.2 MJ/m³ = 29.4 kW gross\n29.4 ÷ 1.11 = 26.5 kW net" in said


def test_a_figure_below_nought_is_no_option() -> None:
    status, said, _ = run("sensor-resistance", "--celsius", "-10")

    assert status == 0
    assert "Ω" in said


@pytest.mark.parametrize("words", [("gas-rate",), ("gas-rate", "--help")])
def test_a_name_alone_prints_the_manual(words: tuple[str, ...]) -> None:
    status, said, _ = run(*words)

    assert status == 0
    assert "--meter    Meter counts in: metric | imperial (usually metric)" in said
    assert "Formula: kW = m³ × calorific value × 1000 ÷ seconds." in said
    assert said.count("Source: ") == 3


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("gas-rat",), "Expected a calculation, found 'gas-rat'. There are water-growth,"),
        (("gas-rate", "volume=0.045"), "seconds: Expected Time, 10 to 7200 s, found nothing. Give seconds."),
        (("gas-rate", "volume"), "Expected an input and its figure, found 'volume'."),
        (("gas-rate", "--volume"), "Expected an input and its figure, found '--volume'."),
        (("gas-rate", "volume=1", "--volume", "2"), "Expected one figure for an input, found '1' and '2'."),
        (("gas-rate", "volume=1", "seconds=60", "size=3"), "size: Expected one of fuel, meter, volume, seconds, cv"),
    ],
)
def test_what_cannot_be_run_is_told_with_what_to_do(words: tuple[str, ...], told: str) -> None:
    status, said, aside = run(*words)

    assert (status, said) == (2, "")
    assert told in aside
