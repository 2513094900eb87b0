"""Saturation against IAPWS-IF97 (iapws 1.5) and IAPWS-95 (CoolProp 8)."""

import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as some
from iapws.iapws97 import _PSat_T

from kb.engineering.span import CannotWork
from kb.engineering.steam import saturation_pressure, saturation_temperature


@pytest.mark.parametrize("celsius", range(5, 110, 5))
def test_pressure_is_that_of_if97_and_near_that_of_iapws_95(celsius: int) -> None:
    found = saturation_pressure(celsius)

    assert found == pytest.approx(10 * _PSat_T(celsius + 273.15), rel=1e-9)
    assert found == pytest.approx(PropsSI("P", "T", celsius + 273.15, "Q", 0, "Water") / 1e5, rel=3e-4)


def test_the_check_value_of_the_standard() -> None:
    # IAPWS R7-97(2012), table 36: 0.1 MPa saturates at 372.755919 K.
    assert saturation_temperature(1.0) + 273.15 == pytest.approx(372.755919, abs=1e-6)


@given(some.floats(0.02, 109))
def test_there_and_back(celsius: float) -> None:
    assert saturation_temperature(saturation_pressure(celsius)) == pytest.approx(celsius, abs=1e-5)


def test_vapour_beyond_the_range_is_refused() -> None:
    with pytest.raises(CannotWork, match="a vapour pressure"):
        saturation_temperature(2)
