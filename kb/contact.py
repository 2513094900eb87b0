"""Whom does an end say to call, and on what number?"""

from dataclasses import dataclass

from kb.article import Call, End
from kb.firm import Firm
from kb.region import Region


@dataclass(frozen=True, slots=True)
class Contact:
    """Somebody to call; `number` is empty where only the household has it, on a bill or a tank."""

    name: str
    number: str


def number_of(kind: str, firm: Firm, region: Region) -> str:
    """The number for `gas` or `emergency`: the one confirmed for this place, else the region's own."""
    confirmed = firm.confirmed(kind)
    return confirmed.number if confirmed else region.numbers[kind].number


def whom(end: End, firm: Firm, region: Region, fuel: str | None = None) -> Contact:
    """Whom an end says to call.

    A home on LPG or oil has no gas network to ring for lost supply or credit, so its supplier is its fuel's.
    """
    match end.call:
        case Call.GAS | Call.EMERGENCY:
            return Contact(region.numbers[end.call].name, number_of(end.call, firm, region))
        case Call.POWER_CUT if "power-cut" in region.numbers:
            number = region.numbers["power-cut"]
            return Contact(number.name, number.number)
        case Call.POWER_CUT:
            return Contact("your electricity network: its number is on your bill", "")
        case Call.SUPPLIER if fuel in ("lpg", "oil"):
            return Contact("your fuel supplier: the number is on your bill or your tank", "")
        case Call.SUPPLIER:
            return Contact("your energy supplier: the number is on your bill, card or app", "")
        case Call.LANDLORD:
            return Contact("your landlord or the agent: the number is on your rent papers", "")
    return Contact(firm.name, firm.phone.number)


def first_aid_lines(end: End, firm: Firm, region: Region) -> tuple[tuple[str, str], ...]:
    """The region's order of actions for an end that has one: what to do, and why where it helps."""
    numbers = {kind: number_of(kind, firm, region) for kind in ("gas", "emergency")}
    return tuple(
        (region.say(action, numbers), action.why or "") for action in region.orders.get(end.emergency or "", ())
    )
