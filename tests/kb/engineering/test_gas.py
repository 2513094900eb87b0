"""Gas rate against worked examples, heats of combustion against the library `chemicals` (values at 25 °C)."""

import pytest
from chemicals import Hfg, combustion_data
from hypothesis import given
from hypothesis import strategies as some

from kb.engineering import gas
from kb.engineering.combustion import FUELS
from kb.engineering.span import CannotWork

METHANE = {"C": 1, "H": 4}
PROPANE = {"C": 3, "H": 8}


@pytest.mark.parametrize(
    ("m3", "seconds", "value", "gross"),
    [
        # Technical bulletin 162's one-minute test, with a usual day's calorific value.
        (0.045, 60, 39.2, 29.4),
        # kWh = m³ × MJ/m³ ÷ 3.6, the billing formula of the Gas (Calculation of Thermal Energy) Regulations 1996.
        (0.05, 65, 39.3, 0.05 * 39.3 / 3.6 * 3600 / 65),
        (0.1, 120, 38.76, 32.3),
        (0.02, 40, 95.65, 47.825),
    ],
)
def test_kilowatts_by_a_metric_meter(m3: float, seconds: float, value: float, gross: float) -> None:
    assert gas.kw_gross(m3, seconds, value) == pytest.approx(gross, rel=1e-6)


@pytest.mark.parametrize(("seconds", "gross"), [(38, 28.875), (80, 13.716)])
def test_kilowatts_by_an_imperial_meter(seconds: float, gross: float) -> None:
    # kW = 3600 × ft³ × Btu/ft³ ÷ (3412.14 × s), as training texts for imperial meters have it: 1040 Btu/ft³.
    assert gross == pytest.approx(3600 * 1040 / (3412.14 * seconds), abs=1e-3)
    assert gas.kw_gross(gas.cubic_metres(1), seconds, gas.mj_per_m3(1040)) == pytest.approx(gross, abs=1e-3)


def test_an_imperial_hundred_is_2_83_cubic_metres() -> None:
    # The factor printed on British gas bills.
    assert gas.cubic_metres(100) == pytest.approx(2.83, abs=0.005)


def test_1040_btu_a_cubic_foot_in_megajoules() -> None:
    assert gas.mj_per_m3(1040) == pytest.approx(38.749, abs=1e-3)


@pytest.mark.parametrize(("fuel", "atoms", "cas"), [("natural-gas", METHANE, "74-82-8"), ("lpg", PROPANE, "74-98-6")])
def test_gross_and_net_are_the_heats_of_combustion(fuel: str, atoms: dict[str, int], cas: str) -> None:
    reference = combustion_data(formula=atoms, Hf=Hfg(cas))

    assert FUELS[fuel].gross == pytest.approx(-reference.HHV / 1000, rel=1.5e-3)
    assert gas.gas(fuel).over_net == pytest.approx(reference.HHV / reference.LHV, rel=1e-3)


@pytest.mark.parametrize(("gross_mol", "net_mol", "fuel"), [(891.51, 802.69, "natural-gas"), (2221.10, 2043.37, "lpg")])
def test_gross_over_net_is_that_of_iso_6976(gross_mol: float, net_mol: float, fuel: str) -> None:
    assert gas.net(gross_mol, gas.gas(fuel).over_net) == pytest.approx(net_mol, rel=1e-3)


def test_propane_has_the_calorific_value_of_iso_6976() -> None:
    # 2221.10 kJ/mol over 23.6449 l/mol at 15 °C and 101.325 kPa, compression factor 0.9821 (ISO 6976:1995).
    assert gas.gas("lpg").gross == pytest.approx(2221.10 / 23.6449 / 0.9821, rel=1e-4)


@given(some.floats(0.001, 1), some.floats(20, 600), some.floats(37, 43))
def test_the_rate_is_proportional(m3: float, seconds: float, value: float) -> None:
    once = gas.kw_gross(m3, seconds, value)

    assert gas.kw_gross(2 * m3, seconds, value) == pytest.approx(2 * once)
    assert gas.kw_gross(m3, 2 * seconds, value) == pytest.approx(once / 2)


def test_oil_has_no_gas_rate() -> None:
    with pytest.raises(CannotWork, match="natural-gas, lpg, found oil"):
        gas.gas("oil")


@pytest.mark.parametrize(("m3", "seconds"), [(0, 60), (0.045, 0), (0.045, float("nan"))])
def test_nothing_measured_is_refused(m3: float, seconds: float) -> None:
    with pytest.raises(CannotWork):
        gas.kw_gross(m3, seconds, 39.2)
