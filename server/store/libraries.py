"""Which articles were served before, word for word, so that what was answered then can still be read?"""

import json
import zlib
from collections.abc import Mapping
from datetime import datetime
from hashlib import blake2b
from typing import Final

from sqlalchemy import Column, Engine, Integer, LargeBinary, String, Table, delete, select

from server.store.answering import answered
from server.store.tables import METADATA
from server.store.types import Moment
from server.store.upsert import upsert

MOST: Final = 12
"""How many libraries are kept; a call reference is read out within hours of its making."""

LIBRARIES: Final = Table(
    "libraries",
    METADATA,
    Column("id", Integer, primary_key=True),
    Column("fingerprint", String(32), nullable=False, unique=True),
    Column("served", Moment, nullable=False),
    Column("texts", LargeBinary, nullable=False),
)
"""The files of a library by name, packed, and when a process last began to serve them."""


class Libraries:
    """The libraries that processes of this database have served."""

    def __init__(self, engine: Engine, reading: Engine) -> None:
        """Use the store's own connections."""
        self._engine = engine
        self._reading = reading

    def keep(self, texts: Mapping[str, str], at: datetime) -> str:
        """Keep the articles that are served from now on, let the oldest go, and say how these are called."""
        packed = json.dumps(dict(sorted(texts.items())), ensure_ascii=False).encode()
        fingerprint = blake2b(packed, digest_size=16).hexdigest()
        row = {"fingerprint": fingerprint, "served": at, "texts": zlib.compress(packed)}
        newest = select(LIBRARIES.c.id).order_by(LIBRARIES.c.served.desc(), LIBRARIES.c.id.desc()).limit(MOST)
        with answered(self._engine), self._engine.begin() as connection:
            connection.execute(upsert(LIBRARIES, connection.dialect.name, ("fingerprint",)), row)
            kept = list(connection.execute(newest).scalars())
            connection.execute(delete(LIBRARIES).where(LIBRARIES.c.id.not_in(kept)))
        return fingerprint

    def fingerprints(self) -> tuple[str, ...]:
        """How the libraries are called, the one that was served last first."""
        query = select(LIBRARIES.c.fingerprint).order_by(LIBRARIES.c.served.desc(), LIBRARIES.c.id.desc())
        with answered(self._engine), self._reading.connect() as connection:
            return tuple(connection.execute(query).scalars())

    def texts(self, fingerprint: str) -> Mapping[str, str] | None:
        """The files of a library by name, None for one that was let go."""
        query = select(LIBRARIES.c.texts).where(LIBRARIES.c.fingerprint == fingerprint)
        with answered(self._engine), self._reading.connect() as connection:
            packed: bytes | None = connection.execute(query).scalar()
        if packed is None:
            return None
        found: dict[str, str] = json.loads(zlib.decompress(packed))
        return found
