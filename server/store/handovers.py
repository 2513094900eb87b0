"""Which handover records are there, and what was written into each?"""

from dataclasses import replace
from datetime import UTC, datetime
from typing import Any, Final

from sqlalchemy import Connection, Engine, Row, insert, select, update

from kb.handover import seal
from kb.handover.record import Addition, Entry, Record, Signature
from server.store.answering import answered
from server.store.handover_tables import ADDITIONS, ENTRIES, HANDOVERS
from server.store.teaching import Learn, teach

MOST_LISTED: Final = 50


class SignedAlready(Exception):
    """A record that was signed is never altered; what came too late may be added to it in words."""


class Changed(Exception):
    """Something was written into a record, or into the register, since somebody looked at it to sign it."""


class NoSuchRecord(Exception):
    """There is no record of that id."""


class Handovers:
    """The handover records of one database; entries and additions are only ever added."""

    def __init__(self, engine: Engine, reading: Engine) -> None:
        """Use the store's own connections."""
        self._engine = engine
        self._reading = reading

    def begin(self, record: Record) -> None:
        """Begin a record, with whatever is known already as its first entries."""
        row = {"id": record.id, "key": record.key, "begun": record.begun, "by": record.by}
        with answered(self._engine), self._engine.begin() as connection:
            connection.execute(insert(HANDOVERS), row)
            if record.entries:
                connection.execute(insert(ENTRIES), [_entry_row(record.id, entry) for entry in record.entries])

    def save(self, id: str, entry: Entry) -> bool:
        """Keep an entry for good; whether it is new, for one that was kept before is kept once.

        Raises NoSuchRecord, and SignedAlready for an entry that is new to a signed record.
        """
        with answered(self._engine), self._engine.begin() as connection:
            signed = _locked(connection, id).fingerprint is not None
            known = select(ENTRIES.c.number).where(ENTRIES.c.handover == id, ENTRIES.c.id == entry.id)
            if connection.execute(known).first():
                return False
            if signed:
                raise SignedAlready
            connection.execute(insert(ENTRIES), _entry_row(id, entry))
        return True

    def record(self, id: str) -> Record | None:
        """A record with everything in it, or None."""
        with answered(self._engine), self._reading.connect() as connection:
            row = connection.execute(select(HANDOVERS).where(HANDOVERS.c.id == id)).first()
            return _record(connection, row) if row else None

    def open_by(self, name: str) -> tuple[Record, ...]:
        """The records that an account began and nobody signed yet, the newest first."""
        query = select(HANDOVERS).where(HANDOVERS.c.by == name, HANDOVERS.c.fingerprint.is_(None))
        return self._listed(query)

    def of_home(self, key: str) -> tuple[Record, ...]:
        """Every record of a home, the newest first."""
        return self._listed(select(HANDOVERS).where(HANDOVERS.c.key == key))

    def sign(self, id: str, signature: Signature, seen: str, learn: Learn | None = None) -> Signature:
        """Sign a record as it was seen, and with it, at once, keep what the home has learnt from it.

        `seen` is the fingerprint of the entries the signer saw; what `learn` raises leaves the record unsigned.
        Raises NoSuchRecord, SignedAlready, and Changed where something was written since.
        """
        with answered(self._engine), self._engine.begin() as connection:
            row = _locked(connection, id)
            if row.fingerprint is not None:
                raise SignedAlready
            entries = seal.of_entries(_record(connection, row))
            if entries != seen:
                raise Changed
            signed = replace(signature, fingerprint=seal.of_signature(entries, signature))
            values = {
                "signed_name": signed.name,
                "signed_by": signed.by,
                "signed_at": signed.at,
                "fingerprint": signed.fingerprint,
            }
            connection.execute(update(HANDOVERS).where(HANDOVERS.c.id == id).values(**values))
            if learn is not None:
                teach(connection, row.key, learn, signature.by)
        return signed

    def add(self, id: str, addition: Addition) -> bool:
        """Add words to a signed record; whether they are new. Raises NoSuchRecord, also for one not signed yet."""
        with answered(self._engine), self._engine.begin() as connection:
            record = _record(connection, _locked(connection, id))
            if record.signature is None:
                raise NoSuchRecord
            if any(each.id == addition.id for each in record.additions):
                return False
            fingerprint = seal.of_addition(seal.last(record), addition)
            row = {
                "handover": id,
                "id": addition.id,
                "words": addition.words,
                "by": addition.by,
                "at": addition.at,
                "fingerprint": fingerprint,
            }
            connection.execute(insert(ADDITIONS), row)
        return True

    def _listed(self, query: Any) -> tuple[Record, ...]:
        newest = query.order_by(HANDOVERS.c.begun.desc(), HANDOVERS.c.id).limit(MOST_LISTED)
        with answered(self._engine), self._reading.connect() as connection:
            return tuple(_record(connection, row) for row in connection.execute(newest).all())


def _locked(connection: Connection, id: str) -> Row[Any]:
    # SQLite lets one transaction write at a time; PostgreSQL holds the row until the transaction ends.
    row = connection.execute(select(HANDOVERS).where(HANDOVERS.c.id == id).with_for_update()).first()
    if row is None:
        raise NoSuchRecord
    return row


def _record(connection: Connection, row: Row[Any]) -> Record:
    entries = select(ENTRIES).where(ENTRIES.c.handover == row.id).order_by(ENTRIES.c.sequence, ENTRIES.c.number)
    additions = select(ADDITIONS).where(ADDITIONS.c.handover == row.id).order_by(ADDITIONS.c.number)
    signature = None
    if row.fingerprint is not None:
        signature = Signature(row.signed_name, row.signed_by, _utc(row.signed_at), row.fingerprint)
    return Record(
        row.id,
        row.key,
        _utc(row.begun),
        row.by,
        tuple(Entry(e.id, e.sequence, e.field, e.text, e.by, _utc(e.at)) for e in connection.execute(entries)),
        signature,
        tuple(Addition(a.id, a.words, a.by, _utc(a.at), a.fingerprint) for a in connection.execute(additions)),
        row.first_key or "",
    )


def _entry_row(handover: str, entry: Entry) -> dict[str, Any]:
    return {
        "handover": handover,
        "id": entry.id,
        "sequence": entry.sequence,
        "field": entry.field,
        "text": entry.text,
        "by": entry.by,
        "at": entry.at,
    }


def _utc(moment: datetime) -> datetime:
    # SQLite gives moments back without their zone; all of ours are UTC.
    return moment if moment.tzinfo else moment.replace(tzinfo=UTC)
