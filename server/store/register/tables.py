"""The tables of the register, as the newest migration leaves them."""

from typing import Final

from sqlalchemy import JSON, Column, Date, ForeignKey, Index, Integer, String, Table, Text, UniqueConstraint

from server.store.tables import METADATA
from server.store.types import Moment

BYTEWISE: Final = String().with_variant(String(collation="C"), "postgresql")
"""Words in the order of their bytes, so that all with one beginning lie in one range of an index."""


def _home() -> Column[int]:
    return Column("home_id", ForeignKey("homes.id"), nullable=False, index=True)


def _person() -> Column[int]:
    return Column("person_id", ForeignKey("people.id", ondelete="CASCADE"), nullable=False, index=True)


ADDRESSES: Final = Table(
    "addresses",
    METADATA,
    Column("home_id", ForeignKey("homes.id"), primary_key=True, autoincrement=False),
    Column("lines", JSON, nullable=False),
    Column("town", Text, nullable=False),
    Column("postcode", Text, nullable=False),
    Column("compact", BYTEWISE, nullable=False, index=True),
)
"""`compact` is the postcode without spaces."""

PEOPLE: Final = Table(
    "people",
    METADATA,
    Column("id", Integer, primary_key=True),
    _home(),
    Column("name", Text, nullable=False),
    Column("role", Text, nullable=False),
    sqlite_autoincrement=True,
)
"""Their numbers are never given again, so that a paper kept for somebody erased is never taken for another's."""

PHONES: Final = Table(
    "phones",
    METADATA,
    Column("id", Integer, primary_key=True),
    _person(),
    Column("number", Text, nullable=False),
    Column("backwards", BYTEWISE, nullable=False, index=True),
)
"""`backwards` are the number's digits from the last to the first, so that last digits are a beginning."""

NEEDS: Final = Table(
    "needs",
    METADATA,
    Column("id", Integer, primary_key=True),
    _person(),
    Column("kind", Text, nullable=False),
    Column("consented", Date, nullable=False, index=True),
    Column("reviewed", Date),
    Column("due", Date, nullable=False, index=True),
)

APPLIANCES: Final = Table(
    "appliances",
    METADATA,
    Column("id", Integer, primary_key=True),
    _home(),
    Column("plate", Text, nullable=False),
    Column("range", Text, nullable=False),
    Column("fuel", Text),
    Column("kind", Text),
    Column("serial", Text, nullable=False),
    Column("fitted", Date),
    Column("warranty_ends", Date, index=True),
    Column("serviced", Date),
    Column("next_service", Date, index=True),
)
"""The first of a home's is the one on its card, whose plate, range and dates the home's own row tells."""

ALARMS: Final = Table(
    "alarms",
    METADATA,
    Column("id", Integer, primary_key=True),
    _home(),
    Column("kind", Text, nullable=False),
    Column("place", Text, nullable=False),
    Column("ends", Date, index=True),
)

AUDIT: Final = Table(
    "audit",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("at", Moment, nullable=False),
    Column("by", Text, nullable=False),
    Column("did", Text, nullable=False),
    Column("home_id", ForeignKey("homes.id")),
    Column("fields", JSON, nullable=False),
    Column("request", Integer),
    Index("ix_audit_home_id", "home_id", "id"),
    Index("ix_audit_request", "request", "id"),
)
"""Who saw or changed which fields of which home, or of which request to call, and when; never what stood in them.

A request is forgotten in time and its number stays, so `request` points at nothing that must be there.
"""

PRINTED_CARDS: Final = Table(
    "printed_cards",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("home_id", ForeignKey("homes.id"), nullable=False),
    Column("size", Text, nullable=False),
    Column("key", Text, nullable=False),
    Column("fingerprint", Text, nullable=False),
    Column("printed", Moment, nullable=False),
    UniqueConstraint("home_id", "size", name="uq_printed_cards_home_id"),
)
"""The last card of each size that was printed for a home."""

KEPT_PAPERS: Final = Table(
    "kept_papers",
    METADATA,
    Column("id", Integer, primary_key=True),
    _home(),
    Column("person_id", Integer, index=True),
    Column("kind", Text, nullable=False),
    Column("made", Date, nullable=False),
    Column("until", Date, nullable=False),
    Column("name", Text, nullable=False),
    Column("address", Text, nullable=False),
)
"""What the law makes a firm keep, with the name and address it was made for, even of somebody erased since."""

SEEK: Final = Table(
    "seek",
    METADATA,
    Column("id", Integer, primary_key=True),
    _home(),
    Column("kind", BYTEWISE, nullable=False),
    Column("words", BYTEWISE, nullable=False),
    Index("ix_seek_words", "kind", "words", "home_id"),
)
"""A name's or a street's folded words, a row for each to stand first, so that any word is a beginning."""

SEEK_WORDS: Final = Table(
    "seek_words",
    METADATA,
    Column("kind", BYTEWISE, primary_key=True),
    Column("piece", BYTEWISE, primary_key=True),
    Column("word", BYTEWISE, primary_key=True),
)
"""Each word in `seek`, once for all homes, a row for each of its endings, so that any piece is a beginning."""
