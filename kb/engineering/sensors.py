"""Which resistance goes with which temperature at a temperature sensor that falls as it warms (NTC)?"""

from math import exp, log
from typing import Final

from kb.engineering.span import Span, within

KELVIN: Final = 273.15
AT: Final = 25.0
"""The temperature that a sensor's nominal resistance is given for, in °C."""

NOMINAL: Final = 10_000.0
BETA: Final = 3977.0
TEMPERATURE: Final = Span(-40, 125, "°C")
OHMS: Final = Span(10, 20_000_000, "Ω")
BETAS: Final = Span(2000, 6000, "K")


def resistance(celsius: float, nominal: float = NOMINAL, beta: float = BETA) -> float:
    """The resistance of a sensor at a temperature.

    Formula: R = R₂₅ × exp(B × (1 ÷ T − 1 ÷ 298.15)).
    Units: temperature in °C (T in K), R and R₂₅ in Ω, B in K.
    Range: −40 to 125 °C; best from 10 to 90 °C.
    Errors: one B for the whole curve is within 0.5 K from 10 to 90 °C and 0.8 K at 0 °C; the sensor itself 1 to 2 K.
    Source: the B model of IEC 60539-1; the maker's table wins.
    """
    kelvin = within("a temperature", celsius, TEMPERATURE) + KELVIN
    start = within("a resistance at 25 °C", nominal, OHMS)
    return start * exp(within("a B value", beta, BETAS) * (1 / kelvin - 1 / (AT + KELVIN)))


def temperature(ohms: float, nominal: float = NOMINAL, beta: float = BETA) -> float:
    """The temperature of a sensor from its resistance.

    Formula: 1 ÷ T = 1 ÷ 298.15 + ln(R ÷ R₂₅) ÷ B.
    Units: R and R₂₅ in Ω, B in K, result in °C.
    Range: 10 Ω to 20 MΩ; best from 10 to 90 °C.
    Errors: as for the resistance.
    Source: the B model of IEC 60539-1; the maker's table wins.
    """
    share = within("a resistance", ohms, OHMS) / within("a resistance at 25 °C", nominal, OHMS)
    return 1 / (1 / (AT + KELVIN) + log(share) / within("a B value", beta, BETAS)) - KELVIN
