"""Which of a region's lines stand in the danger panel, and which confirmed numbers?"""

from collections.abc import Iterator
from datetime import date
from typing import Final

from kb import firm as firms
from kb.card import words
from kb.card.value import Danger, DangerLine, Reason, Ring, Sign
from kb.region import Action, Region

ORDER: Final = "gas-smell"
"""The order of actions the panel is taken from: the strictest one, which also holds for an alarm."""

_SIGNS: Final = {"flames": Sign.PROHIBITION, "switches": Sign.PROHIBITION, "getting out": Sign.SAFE}
_ALSO: Final = {"lpg": words.LPG_ALSO, "oil": words.OIL_ALSO}
"""Who else is rung where the fuel does not come from the street."""

_GAS: Final = "{gas}"
_EMERGENCY: Final = "{emergency}"


def danger_of(firm: firms.Firm, region: Region, fuel: str | None, today: date) -> Danger | tuple[Reason, ...]:
    """The danger panel, or every reason why there can be none."""
    reasons = (*_unconfirmed(firm, region, today), *_unsaid(region))
    if reasons:
        return reasons
    return Danger(
        title=words.DANGER_OIL if fuel == "oil" else words.DANGER,
        lines=tuple(_lines(region)),
        calls=tuple(_calls(firm, region, fuel)),
        last=next((line.do for line in region.orders[ORDER] if words.STAY_OUT_LINE.search(line.do)), words.STAY_OUT),
    )


def _unconfirmed(firm: firms.Firm, region: Region, today: date) -> Iterator[Reason]:
    if region.code != firm.region:
        yield Reason(
            "firm.region",
            f"The firm confirmed its emergency numbers for {firm.region}, and this card is for {region.code}.",
            "Print it with the region that the firm names.",
        )
    for kind in ("gas", "emergency"):
        confirmed = firm.confirmed(kind)
        field = f"firm.emergency.{kind}"
        if confirmed is None:
            yield Reason(field, f"Nobody has confirmed the {kind} number for {firm.town}.", _CONFIRM)
        elif confirmed.confirmed > today:
            found = f"The {kind} number is said to be confirmed on {confirmed.confirmed}, which is still to come."
            yield Reason(field, found, _CONFIRM)


_CONFIRM: Final = "Let the engineer check it for this place, and write down number, day and role."


def _unsaid(region: Region) -> Iterator[Reason]:
    remedy = f"Say it in the region's profile {region.code}, as the other profiles do."
    field = f"region.orders.{ORDER}"
    for need in words.NEEDED:
        if _line(region, need) is None:
            yield Reason(field, f"No line speaks of {need}.", remedy)
    if _call(region) is None:
        yield Reason(field, f"No line tells people to ring {_GAS} from outside.", remedy)


def _line(region: Region, need: str) -> Action | None:
    fitting = (line for line in region.orders.get(ORDER, ()) if words.NEEDED[need].search(line.do))
    return min(fitting, key=lambda line: len(line.do), default=None)


def _call(region: Region) -> Action | None:
    return next((line for line in region.orders.get(ORDER, ()) if words.CALL_LINE.search(line.do)), None)


def _lines(region: Region) -> Iterator[DangerLine]:
    for need, sign in _SIGNS.items():
        line = _line(region, need)
        assert line is not None, f"_unsaid lets no region through that does not speak of {need}"
        yield DangerLine(sign, line.do)


def _calls(firm: firms.Firm, region: Region, fuel: str | None) -> Iterator[Ring]:
    numbers = {kind: confirmed.number for kind in ("gas", "emergency") if (confirmed := firm.confirmed(kind))}
    call = _call(region)
    assert call is not None, "_unsaid lets no region through that has no line about the call"
    who = ", ".join(filter(None, (region.numbers["gas"].name, _ALSO.get(fuel or ""))))
    yield Ring(_before(call.do, _GAS), numbers["gas"], who)
    if numbers["emergency"] != numbers["gas"]:
        ill = next((line.do for line in region.orders[ORDER] if words.ILL_LINE.search(line.do)), None)
        when = _before(ill, _EMERGENCY) if ill else words.ILL
        yield Ring(when, numbers["emergency"], region.numbers["emergency"].name)


def _before(line: str, number: str) -> str:
    return line.split(number)[0].strip()
