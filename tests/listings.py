"""Tables of invented homes, as somebody would bring them from a spreadsheet."""

from collections.abc import Iterator
from random import Random
from typing import Final

_STREETS: Final = ("Mill Lane", "Quarry Road", "Teasel Close", "Rookery Way", "Tanyard Row")
_FIRST: Final = ("Anna", "Bram", "Cleo", "Dev", "Edda", "Femi", "Greta", "Hugo")
_LAST: Final = ("Whitfield", "Oakes", "Dunn", "Marsh", "Pell", "Thackray", "Winslow", "Yarde")
HEAD: Final = (
    "Address 1,Town,Postcode,Fuel,System,Tenure,Gauge low,Gauge aim,Gauge high,Appliance 1 plate,Appliance 1 range,"
    "Appliance 1 next service,Appliance 1 warranty ends,Alarm 1 kind,Alarm 1 place,Alarm 1 ends,"
    "Person 1 name,Person 1 phone 1,Person 1 need 1,Person 1 need 1 agreed"
)


def generated(homes: int, seed: int = 1) -> str:
    """A table of so many homes, each with somebody who lives there; phones are from the range kept for fiction."""
    return "\r\n".join((HEAD, *_lines(homes, Random(seed)), ""))


def _lines(homes: int, random: Random) -> Iterator[str]:
    for n in range(homes):
        need = ("over-65", f"2026-{n % 11 + 1:02d}-03") if n % 7 == 0 else ("", "")
        yield ",".join(
            (
                f"{n + 1} {random.choice(_STREETS)}",
                "Wickenthorpe",
                f"ZZ{n % 90 + 10} {n % 10}{random.choice('ABDEFG')}{random.choice('HJLNPQ')}",
                *("natural-gas", "sealed", random.choice(("own", "rent")), "0.8", "1.2", "1.8"),
                *("Marlpit C 28", "marlpit-c", f"2027-{n % 12 + 1:02d}-{n % 28 + 1:02d}", "2033-01-31"),
                *("co", "beside the boiler", f"{2027 + n % 6}-06-30"),
                f"{random.choice(_FIRST)} {random.choice(_LAST)} {n + 1}",
                f"07700 900{n % 1000:03d}",
                *need,
            )
        )
