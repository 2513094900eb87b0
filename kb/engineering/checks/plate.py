"""Do the figures from the appliance's plate agree with each other?"""

from collections.abc import Iterator
from typing import Final

from kb.engineering.record import Readings, burnt, sound
from kb.engineering.remark import Remark, fine, question
from kb.engineering.span import figure

_ROUNDING: Final = 0.015
"""How far a plate's gross over net may lie from the gas's own, both being rounded (common practice)."""

_BEST: Final = 1.1
"""Output over net input that no appliance passes: all the heat of the vapour would be won (gross over net)."""


def gross_and_net(readings: Readings) -> Iterator[Remark]:
    """The plate's gross input is 1.11 times its net one on natural gas, 1.09 times on propane."""
    both, gas = sound(readings, "input_net_kw", "input_gross_kw"), burnt(readings)
    if both is None or gas is None:
        return
    net, gross = both
    names = ("input_net_kw", "input_gross_kw")
    working = (
        f"{figure(gross)} kW gross ÷ {figure(net)} kW net = {figure(gross / net)}; usual is {figure(gas.over_net)}"
    )
    if gross <= net:
        yield question(
            "plate", names, "The plate's gross input is not above its net one. Are the two swapped?", working
        )
    elif abs(gross / net / gas.over_net - 1) > _ROUNDING:
        text = "The plate's gross and net input do not fit this gas. Are both from the same line of the plate?"
        yield question("plate", names, text, working)
    else:
        yield fine("plate", names, "The plate's gross and net input agree.", working)


def output_and_input(readings: Readings) -> Iterator[Remark]:
    """No appliance gives out more than it takes in, nor as hot water."""
    for name, label in (("output_kw", "output"), ("dhw_kw", "hot water output")):
        out = sound(readings, name)
        most, given = _most(readings)
        if out is not None and given and out[0] > most * 1.005:
            told = f"The plate's {label} of {figure(out[0])} kW is more than its input can give. Is it the right line?"
            yield question("plate-output", (name, given), told, f"At most {figure(most)} kW can come out")


def _most(readings: Readings) -> tuple[float, str]:
    """The most heat the plate's input holds, and which figure says so; an empty name without one."""
    gross, net = sound(readings, "input_gross_kw"), sound(readings, "input_net_kw")
    if gross is not None:
        return gross[0], "input_gross_kw"
    return (net[0] * _BEST, "input_net_kw") if net is not None else (0.0, "")


CHECKS: Final = (gross_and_net, output_and_input)
