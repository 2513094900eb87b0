"""The register: people, addresses, appliances, alarms, the trail of who saw them, printed cards, papers kept by law."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the tables around the homes."""
    op.add_column("homes", sa.Column("replaced_by", sa.Integer(), nullable=True))
    _addresses_and_people()
    _things()
    _trail()
    _seeking()


def _addresses_and_people() -> None:
    op.create_table(
        "addresses",
        sa.Column("home_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("lines", sa.JSON(), nullable=False),
        sa.Column("town", sa.Text(), nullable=False),
        sa.Column("postcode", sa.Text(), nullable=False),
        sa.Column("compact", _bytewise(), nullable=False),
        sa.PrimaryKeyConstraint("home_id", name="pk_addresses"),
        sa.ForeignKeyConstraint(["home_id"], ["homes.id"], name="fk_addresses_home_id"),
    )
    _of_home(
        "people",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
    )
    _of_person(
        "phones", sa.Column("number", sa.Text(), nullable=False), sa.Column("backwards", _bytewise(), nullable=False)
    )
    _of_person(
        "needs",
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("consented", sa.Date(), nullable=False),
        sa.Column("reviewed", sa.Date()),
        sa.Column("due", sa.Date(), nullable=False),
    )
    op.create_index("ix_addresses_compact", "addresses", ["compact"])
    op.create_index("ix_phones_backwards", "phones", ["backwards"])
    op.create_index("ix_needs_due", "needs", ["due"])


def _things() -> None:
    _of_home(
        "appliances",
        sa.Column("plate", sa.Text(), nullable=False),
        sa.Column("range", sa.Text(), nullable=False),
        sa.Column("fuel", sa.Text()),
        sa.Column("kind", sa.Text()),
        sa.Column("serial", sa.Text(), nullable=False),
        sa.Column("fitted", sa.Date()),
        sa.Column("warranty_ends", sa.Date()),
        sa.Column("serviced", sa.Date()),
        sa.Column("next_service", sa.Date()),
    )
    _of_home(
        "alarms",
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("place", sa.Text(), nullable=False),
        sa.Column("ends", sa.Date()),
    )
    _of_home(
        "kept_papers",
        sa.Column("person_id", sa.Integer()),
        sa.Column("kind", sa.Text(), nullable=False),
        sa.Column("made", sa.Date(), nullable=False),
        sa.Column("until", sa.Date(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("address", sa.Text(), nullable=False),
    )
    op.create_index("ix_kept_papers_person_id", "kept_papers", ["person_id"])


def _trail() -> None:
    op.create_table(
        "audit",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("by", sa.Text(), nullable=False),
        sa.Column("did", sa.Text(), nullable=False),
        sa.Column("home_id", sa.Integer()),
        sa.Column("fields", sa.JSON(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_audit"),
        sa.ForeignKeyConstraint(["home_id"], ["homes.id"], name="fk_audit_home_id"),
    )
    op.create_index("ix_audit_home_id", "audit", ["home_id", "id"])
    op.create_table(
        "printed_cards",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("home_id", sa.Integer(), nullable=False),
        sa.Column("size", sa.Text(), nullable=False),
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("fingerprint", sa.Text(), nullable=False),
        sa.Column("printed", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_printed_cards"),
        sa.ForeignKeyConstraint(["home_id"], ["homes.id"], name="fk_printed_cards_home_id"),
        sa.UniqueConstraint("home_id", "size", name="uq_printed_cards_home_id"),
    )


def _of_home(table: str, *columns: "sa.Column[object]") -> None:
    _belonging(
        table, "home_id", sa.ForeignKeyConstraint(["home_id"], ["homes.id"], name=f"fk_{table}_home_id"), columns
    )


def _of_person(table: str, *columns: "sa.Column[object]") -> None:
    goes_with = sa.ForeignKeyConstraint(["person_id"], ["people.id"], name=f"fk_{table}_person_id", ondelete="CASCADE")
    _belonging(table, "person_id", goes_with, columns)


def _belonging(table: str, to: str, bond: sa.ForeignKeyConstraint, columns: tuple["sa.Column[object]", ...]) -> None:
    op.create_table(
        table,
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column(to, sa.Integer(), nullable=False),
        *columns,
        sa.PrimaryKeyConstraint("id", name=f"pk_{table}"),
        bond,
        sqlite_autoincrement=table == "people",
    )
    op.create_index(f"ix_{table}_{to}", table, [to])


def _seeking() -> None:
    _of_home(
        "seek",
        sa.Column("kind", _bytewise(), nullable=False),
        sa.Column("words", _bytewise(), nullable=False),
    )
    op.create_index("ix_seek_words", "seek", ["kind", "words", "home_id"])
    op.create_table(
        "seek_words",
        *(sa.Column(name, _bytewise(), nullable=False) for name in ("kind", "piece", "word")),
        sa.PrimaryKeyConstraint("kind", "piece", "word", name="pk_seek_words"),
    )


def _bytewise() -> "sa.types.TypeEngine[str]":
    return sa.String().with_variant(sa.String(collation="C"), "postgresql")
