"""The register: people, addresses, appliances, alarms, the trail of who saw them, printed cards, papers kept by law."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"

SEEKING = ("people", "addresses")


def upgrade() -> None:
    """Make the tables around the homes, and the indexes that find a home by a fragment."""
    op.add_column("homes", sa.Column("replaced_by", sa.Integer(), nullable=True))
    _addresses_and_people()
    _things()
    _trail()
    if op.get_bind().dialect.name == "sqlite":
        for table in SEEKING:
            _trigrams_of_sqlite(table)
    else:
        op.execute("CREATE EXTENSION IF NOT EXISTS pg_trgm")
        for table in SEEKING:
            # Without fastupdate a search never has to read through what was not yet sorted in.
            op.execute(f"CREATE INDEX seek_{table} ON {table} USING gin (folded gin_trgm_ops) WITH (fastupdate = off)")


def _addresses_and_people() -> None:
    bytewise = sa.String().with_variant(sa.String(collation="C"), "postgresql")
    op.create_table(
        "addresses",
        sa.Column("home_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("lines", sa.JSON(), nullable=False),
        sa.Column("town", sa.Text(), nullable=False),
        sa.Column("postcode", sa.Text(), nullable=False),
        sa.Column("compact", bytewise, nullable=False),
        sa.Column("folded", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("home_id", name="pk_addresses"),
        sa.ForeignKeyConstraint(["home_id"], ["homes.id"], name="fk_addresses_home_id"),
    )
    _of_home(
        "people",
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("folded", sa.Text(), nullable=False),
    )
    _of_person(
        "phones", sa.Column("number", sa.Text(), nullable=False), sa.Column("backwards", bytewise, nullable=False)
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


def _trigrams_of_sqlite(table: str) -> None:
    """An index of every three letters of the column folded, kept in step by triggers."""
    key = "id" if table == "people" else "home_id"
    op.execute(
        f"CREATE VIRTUAL TABLE seek_{table} USING fts5"
        f"(folded, content='{table}', content_rowid='{key}', tokenize='trigram')"
    )
    add = f"INSERT INTO seek_{table} (rowid, folded) VALUES (new.{key}, new.folded);"
    remove = f"INSERT INTO seek_{table} (seek_{table}, rowid, folded) VALUES ('delete', old.{key}, old.folded);"
    op.execute(f"CREATE TRIGGER seek_{table}_added AFTER INSERT ON {table} BEGIN {add} END")
    op.execute(f"CREATE TRIGGER seek_{table}_removed AFTER DELETE ON {table} BEGIN {remove} END")
    op.execute(f"CREATE TRIGGER seek_{table}_changed AFTER UPDATE OF folded ON {table} BEGIN {remove} {add} END")
