"""The sensor's curve against the B model worked by hand and a four-coefficient curve of a 10 kΩ, 3977 K part."""

from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as some

from kb.engineering.sensors import resistance, temperature
from kb.engineering.span import CannotWork


@pytest.mark.parametrize(("celsius", "ohms"), [(0, 33_900), (20, 12_555), (25, 10_000), (60, 2_463), (80, 1_252)])
def test_the_table_of_the_usual_sensor(celsius: float, ohms: float) -> None:
    # IEC 60539-1's B model with 10 kΩ at 25 °C and B = 3977 K.
    assert resistance(celsius) == pytest.approx(ohms, rel=5e-4)


@pytest.mark.parametrize(("celsius", "ohms"), [(0, 37_826), (60, 3_213), (80, 1_701)])
def test_the_table_of_another_sensor(celsius: float, ohms: float) -> None:
    assert resistance(celsius, 12_000, 3740) == pytest.approx(ohms, rel=5e-4)


@pytest.mark.parametrize("celsius", range(10, 91, 10))
def test_one_b_value_is_within_half_a_kelvin_of_four_coefficients(celsius: int) -> None:
    # ln(R/R25) = A + B/T + C/T² + D/T³ with the published coefficients of a 3977 K part.
    kelvin = celsius + 273.15
    published = 10_000 * exp(-14.6337 + 4791.842 / kelvin - 115_334 / kelvin**2 - 3.730535e6 / kelvin**3)

    assert temperature(published) == pytest.approx(celsius, abs=0.5)


@given(some.floats(-40, 125), some.floats(1000, 100_000), some.floats(3000, 4500))
def test_there_and_back(celsius: float, nominal: float, beta: float) -> None:
    assert temperature(resistance(celsius, nominal, beta), nominal, beta) == pytest.approx(celsius, abs=1e-6)


@pytest.mark.parametrize("ohms", [0, -5, 9e9])
def test_what_is_no_resistance_is_refused(ohms: float) -> None:
    with pytest.raises(CannotWork, match="a resistance of"):
        temperature(ohms)
