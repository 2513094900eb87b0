"""The plate's figures against each other, by the gas's gross over net (ISO 6976)."""

import pytest

from kb.engineering.record import Readings
from kb.engineering.remark import Level
from tests.kb.engineering.records import asked, only, propane, record, said

PLATE = ("fuel", "input_net_kw", "input_gross_kw")


@pytest.mark.parametrize("readings", [record(), propane()], ids=["1.11", "1.087"])
def test_gross_over_net_is_the_gas_own(readings: Readings) -> None:
    assert said(readings, "plate").level is Level.FINE


def test_gross_and_net_swapped() -> None:
    remark = said(only("fuel", input_net_kw=29.4, input_gross_kw=26.5), "plate")

    assert remark.level is Level.QUESTION
    assert "swapped" in remark.text


def test_two_figures_of_different_lines() -> None:
    remark = said(only("fuel", input_net_kw=20, input_gross_kw=29.4), "plate")

    assert remark.level is Level.QUESTION
    assert remark.working == ("29.4 kW gross ÷ 20 kW net = 1.47; usual is 1.11",)


def test_without_a_fuel_nothing_is_said() -> None:
    assert asked(only(input_net_kw=29.4, input_gross_kw=26.5)) == set()


@pytest.mark.parametrize("name", ["output_kw", "dhw_kw"])
def test_no_more_comes_out_than_goes_in(name: str) -> None:
    assert said(only("input_gross_kw", **{name: 30}), "plate-output").figures == (name, "input_gross_kw")
    assert said(only("input_net_kw", **{name: 30}), "plate-output").figures == (name, "input_net_kw")
    assert asked(only("input_gross_kw", **{name: 28.5})) == set()
