"""How heavy is water at a temperature, how much does it grow when it is heated, and how hard does its height press?"""

from typing import Final

from kb.engineering.span import Span, within

GRAVITY: Final = 9.80665
"""Standard gravity, in m/s² (CGPM, 1901)."""

TEMPERATURE: Final = Span(0, 100, "°C")
HEIGHT: Final = Span(0, 100, "m")
HEAD: Final = Span(0, 10, "bar")
COLD: Final = 10.0
"""The usual temperature of cold water, in °C (common practice)."""

_ABOVE: Final = (999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12)
_BELOW: Final = 16.879850e-3


def density(celsius: float) -> float:
    """The density of water at the pressure of the air.

    Formula: ρ = (a₀ + a₁t + a₂t² + a₃t³ + a₄t⁴ + a₅t⁵) ÷ (1 + bt).
    Units: t in °C, ρ in kg/m³.
    Range: 0 to 100 °C.
    Errors: within 0.02 kg/m³ of IAPWS-95; each bar of pressure adds about 0.05 kg/m³; inhibitor is left out.
    Source: Kell, Journal of Chemical and Engineering Data 20 (1975), page 97.
    """
    t = within("a water temperature", celsius, TEMPERATURE)
    return sum(a * t**power for power, a in enumerate(_ABOVE)) / (1 + _BELOW * t)


def expansion(cold: float, hot: float) -> float:
    """The share by which water grows between two temperatures, of its cold volume.

    Formula: e = ρ(cold) ÷ ρ(hot) − 1.
    Units: temperatures in °C, e as a share: 0.0287 is 2.87 %.
    Range: 0 to 100 °C; negative where water shrinks, as it does from 0 to 4 °C.
    Errors: under 0.01 % of the volume; antifreeze makes it larger and is left out.
    Source: the definition, with Kell's density; handbook tables of 1 − ρ ÷ 1000 differ by up to 3 % of the value.
    """
    return density(cold) / density(hot) - 1


def head(metres: float, celsius: float = COLD) -> float:
    """The pressure under a column of water.

    Formula: p = ρ × g × h ÷ 100 000.
    Units: h in m, temperature in °C, p in bar.
    Range: 0 to 100 m, 0 to 100 °C.
    Errors: under 0.1 %; one metre is 0.0980 bar cold and 0.0953 bar at 80 °C.
    Source: hydrostatics, with Kell's density and standard gravity.
    """
    return density(celsius) * GRAVITY * within("a height", metres, HEIGHT) / 1e5


def metres_of(bar: float, celsius: float = COLD) -> float:
    """The height of water that makes a pressure.

    Formula: h = p × 100 000 ÷ (ρ × g).
    Units: p in bar, temperature in °C, h in m.
    Range: 0 to 10 bar, 0 to 100 °C.
    Errors: under 0.1 %; one bar is 10.2 m cold.
    Source: hydrostatics, with Kell's density and standard gravity.
    """
    return within("a pressure", bar, HEAD) * 1e5 / (density(celsius) * GRAVITY)
