"""How much heat does moving water carry, from a tap or round the radiators?"""

from typing import Final

from kb.engineering.span import CannotWork, Span, figure, within
from kb.engineering.water import COLD, density

SPECIFIC_HEAT: Final = 4.186
"""What a kilogram of water takes up for a kelvin, in kJ; within 0.3 % from 5 to 85 °C (IAPWS-95: 4.179 to 4.205)."""

FLOW: Final = Span(0.1, 200, "l/min")
RISE: Final = Span(0.5, 95, "K")
POWER: Final = Span(0.1, 500, "kW")


def kilowatts(litres_a_minute: float, rise: float, counted_at: float = COLD) -> float:
    """The heat that a flow of water carries.

    Formula: kW = l/min × ρ ÷ 60 000 × 4.186 × K; about l/min × K × 0.07.
    Units: flow in l/min, rise in K, temperature where the litres are counted in °C, result in kW.
    Range: 0.1 to 200 l/min, 0.5 to 95 K.
    Errors: the formula 0.5 %; a bucket and a thermometer 5 to 10 %.
    Source: the definition of specific heat, with Kell's density.
    """
    flow = within("a flow", litres_a_minute, FLOW)
    return flow * density(counted_at) / 60_000 * SPECIFIC_HEAT * within("a rise in temperature", rise, RISE)


def litres(kw: float, rise: float, counted_at: float = COLD) -> float:
    """The flow of water that carries so much heat.

    Formula: l/min = kW × 60 000 ÷ (ρ × 4.186 × K).
    Units: heat in kW, rise in K, temperature where the litres are counted in °C, result in l/min.
    Range: 0.1 to 500 kW, 0.5 to 95 K.
    Errors: 0.5 %.
    Source: the definition of specific heat, with Kell's density.
    """
    return within("a heat", kw, POWER) / kilowatts(1, rise, counted_at)


def rise(kw: float, litres_a_minute: float, counted_at: float = COLD) -> float:
    """The rise in temperature that so much heat gives to a flow.

    Formula: K = kW × 60 000 ÷ (ρ × 4.186 × l/min).
    Units: heat in kW, flow in l/min, temperature where the litres are counted in °C, result in K.
    Range: 0.1 to 500 kW, 0.1 to 200 l/min.
    Errors: 0.5 %.
    Source: the definition of specific heat, with Kell's density.
    """
    return within("a heat", kw, POWER) / kilowatts(litres_a_minute, 1, counted_at)


def between(cold: float, hot: float, names: tuple[str, str] = ("cold in", "hot out")) -> float:
    """The rise from one temperature to another.

    Formula: K = hot − cold.
    Units: °C in, K out.
    Range: the second must be the warmer.
    Errors: twice that of one thermometer.
    Source: the definition.
    """
    if hot <= cold:
        raise CannotWork(
            f"{names[1]} above {names[0]}",
            f"{figure(hot)} °C and {figure(cold)} °C",
            "See whether the two are swapped",
        )
    return hot - cold
