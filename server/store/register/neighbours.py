"""Is there a home at an address already?"""

from collections.abc import Iterable, Mapping
from typing import Final, TypeAlias

from sqlalchemy import Connection, bindparam, select

from kb.register import Address, Mistake
from kb.register.folding import folded
from server.store.register.tables import ADDRESSES
from server.store.register.writing import address_row
from server.store.tables import HOMES

Place: TypeAlias = tuple[str, str]
"""An address as it is held against others: its postcode without spaces, and what stands above the town, folded."""

_MOST: Final = 500
_AT: Final = (
    select(HOMES.c.key, ADDRESSES.c.lines, ADDRESSES.c.compact)
    .join(HOMES, HOMES.c.id == ADDRESSES.c.home_id)
    .where(ADDRESSES.c.compact.in_(bindparam("compact", expanding=True)), HOMES.c.revoked.is_(None))
    .order_by(HOMES.c.id.desc())
)


def place_of(address: Address) -> Place:
    """An address as it is held against others, whatever its case and signs."""
    return str(address_row(address)["compact"]), folded(*address.lines)


def keys_at(connection: Connection, addresses: Iterable[Address | None]) -> Mapping[Place, str]:
    """The keys of the homes that are at these addresses, the oldest home where there are two."""
    sought = {place_of(address) for address in addresses if address}
    postcodes = sorted({compact for compact, _ in sought})
    found: dict[Place, str] = {}
    for start in range(0, len(postcodes), _MOST):
        for row in connection.execute(_AT, {"compact": postcodes[start : start + _MOST]}):
            found[row.compact, folded(*row.lines)] = row.key
    return {place: key for place, key in found.items() if place in sought}


def another_at(key: str) -> Mistake:
    """What is said of a new home whose address another home has already."""
    return Mistake(
        "address",
        "a home that is not in the register yet",
        f"the one with the key {key} at this address",
        "Give that key to change it. Two homes at one address need what tells them apart, such as Flat 2.",
    )
