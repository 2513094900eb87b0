"""Is a signed record still what was signed?

Each entry's fingerprint is made from it and the fingerprint before it, down to the record's beginning; the signature
closes the chain, and every addition lengthens it.
Whoever changes, removes, adds or reorders anything that was signed changes every fingerprint after it.
The signed page and its print show the last one, so that a record rewritten as a whole would not agree with the paper.
"""

from collections.abc import Iterator
from datetime import UTC, datetime
from hashlib import sha256
from json import dumps
from typing import Final

from kb.handover.record import Addition, Entry, Record, Signature

_FIRST: Final = "tundish handover, chain 1"


def of_entries(record: Record) -> str:
    """The fingerprint of a record's entries as they stand."""
    link = _link(_FIRST, record.id, record.first_key or record.key, _moment(record.begun), record.by)
    for entry in record.entries:
        link = _link(link, *_parts(entry))
    return link


def of_signature(before: str, signature: Signature) -> str:
    """The fingerprint of a signature under entries whose own is `before`."""
    return _link(before, "signed", signature.name, signature.by, _moment(signature.at))


def of_addition(before: str, addition: Addition) -> str:
    """The fingerprint of an addition after whatever came before."""
    return _link(before, "added", addition.id, addition.words, addition.by, _moment(addition.at))


def is_unaltered(record: Record) -> bool:
    """Whether a signed record's fingerprints are still those of what it holds; an unsigned one claims nothing."""
    return record.signature is None or all(kept == made for kept, made in _both(record, record.signature))


def last(record: Record) -> str:
    """The fingerprint that now covers the whole of a signed record."""
    kept = [record.signature.fingerprint if record.signature else "", *(each.fingerprint for each in record.additions)]
    return kept[-1]


def _both(record: Record, signature: Signature) -> Iterator[tuple[str, str]]:
    link = of_signature(of_entries(record), signature)
    yield signature.fingerprint, link
    for addition in record.additions:
        link = of_addition(link, addition)
        yield addition.fingerprint, link


def _parts(entry: Entry) -> tuple[str, ...]:
    return entry.id, str(entry.sequence), entry.field, entry.text, entry.by, _moment(entry.at)


def _moment(at: datetime) -> str:
    return at.astimezone(UTC).isoformat(timespec="microseconds")


def _link(*parts: str) -> str:
    return sha256(dumps(parts, ensure_ascii=True, separators=(",", ":")).encode()).hexdigest()
