"""At what temperature does water vapour of a given pressure turn into water, and the other way round?"""

from math import sqrt
from typing import Final

from kb.engineering.span import Span, within

KELVIN: Final = 273.15
VAPOUR: Final = Span(0.00612, 1.5, "bar")
TEMPERATURE: Final = Span(0.01, 110, "°C")

_N: Final = (
    0.11670521452767e4,
    -0.72421316703206e6,
    -0.17073846940092e2,
    0.12020824702470e5,
    -0.32325550322333e7,
    0.14915108613530e2,
    -0.48232657361591e4,
    0.40511340542057e6,
    -0.23855557567849,
    0.65017534844798e3,
)


def saturation_pressure(celsius: float) -> float:
    """The pressure of water vapour over water at a temperature.

    Formula: the saturation equation of IAPWS-IF97, region 4 (equation 30).
    Units: temperature in °C, pressure in bar absolute.
    Range: 0.01 to 110 °C.
    Errors: under 0.03 %.
    Source: IAPWS R7-97(2012), Industrial Formulation 1997.
    """
    kelvin = within("a temperature", celsius, TEMPERATURE) + KELVIN
    x = kelvin + _N[8] / (kelvin - _N[9])
    a = x**2 + _N[0] * x + _N[1]
    b = _N[2] * x**2 + _N[3] * x + _N[4]
    c = _N[5] * x**2 + _N[6] * x + _N[7]
    root: float = (2 * c / (-b + sqrt(b**2 - 4 * a * c))) ** 4
    return 10 * root


def saturation_temperature(bar: float) -> float:
    """The temperature at which water vapour of a pressure begins to condense.

    Formula: the backward equation of IAPWS-IF97, region 4 (equation 31).
    Units: pressure in bar absolute, temperature in °C.
    Range: 0.00612 to 1.5 bar.
    Errors: under 0.01 K.
    Source: IAPWS R7-97(2012), Industrial Formulation 1997.
    """
    beta: float = (within("a vapour pressure", bar, VAPOUR) / 10) ** 0.25
    e = beta**2 + _N[2] * beta + _N[5]
    f = _N[0] * beta**2 + _N[3] * beta + _N[6]
    g = _N[1] * beta**2 + _N[4] * beta + _N[7]
    d = 2 * g / (-f - sqrt(f**2 - 4 * e * g))
    whole = _N[9] + d
    return (whole - sqrt(whole**2 - 4 * (_N[8] + _N[9] * d))) / 2 - KELVIN
