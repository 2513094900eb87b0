"""Heat of water against IAPWS-95 enthalpies (CoolProp 8) and the trade's usual figures."""

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as some

from kb.engineering import heat
from kb.engineering.span import CannotWork


def enthalpy(celsius: float) -> float:
    return float(PropsSI("H", "T", celsius + 273.15, "P", 101_325, "Water")) / 1000


@pytest.mark.parametrize(("cold", "hot"), [(10, 45), (5, 40), (15, 45), (20, 60), (40, 60), (60, 80)])
def test_kilowatts_are_those_of_the_enthalpy(cold: float, hot: float) -> None:
    kg_a_litre = float(PropsSI("D", "T", cold + 273.15, "P", 101_325, "Water")) / 1000
    reference = 10 / 60 * kg_a_litre * (enthalpy(hot) - enthalpy(cold))

    assert heat.kilowatts(10, hot - cold, cold) == pytest.approx(reference, rel=5e-3)


@pytest.mark.parametrize(("kw", "litres"), [(24, 9.8), (28, 11.5), (30, 12.3), (35, 14.3)])
def test_litres_a_minute_at_35_kelvin_are_the_trades(kw: float, litres: float) -> None:
    # Common practice, as printed for instantaneous water heaters: kW = l/min × K × 0.07.
    assert heat.litres(kw, 35) == pytest.approx(litres, abs=0.05)


@pytest.mark.parametrize(("rise", "litres"), [(20, 17), (11, 31)])
def test_24_kilowatts_round_the_radiators(rise: float, litres: float) -> None:
    # Common practice: 24 kW needs about 17 l/min at 20 K and 31 l/min at 11 K.
    assert heat.litres(24, rise, 50) == pytest.approx(litres, abs=0.8)


def test_litres_for_26_kilowatts_and_a_half() -> None:
    # IAPWS-95 with the density at the cold inlet: 10.865 l/min for 10 to 45 °C.
    assert heat.litres(26.5, 35) == pytest.approx(10.865, rel=2e-3)


@given(some.floats(1, 100), some.floats(1, 40), some.floats(1, 90))
def test_heat_flow_and_rise_go_there_and_back(kw: float, litres: float, celsius: float) -> None:
    rise = heat.rise(kw, litres, celsius)

    assert heat.RISE.low > rise or rise > heat.RISE.high or heat.kilowatts(litres, rise, celsius) == pytest.approx(kw)


def test_hot_below_cold_is_asked_about() -> None:
    with pytest.raises(CannotWork, match="hot out above cold in, found 10 °C and 45 °C"):
        heat.between(45, 10)
