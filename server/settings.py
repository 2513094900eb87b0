"""What differs from machine to machine; the one module that reads the environment."""

import os
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final, Self

PREFIX: Final = "TUNDISH_"
HERE: Final = Path(__file__).parent.parent


class WrongSettings(Exception):
    """A setting cannot be used; the message names it, what was expected and what to do."""


@dataclass(frozen=True, slots=True)
class Settings:
    """Where things lie on this machine, and where to serve."""

    articles: Path
    firm: Path
    ranges: Path
    database: str
    host: str
    port: int

    @classmethod
    def read(cls, environment: Mapping[str, str] = os.environ) -> Self:
        """The settings of this machine; what the environment does not say is as the demo has it."""

        def said(name: str, otherwise: object) -> str:
            return environment.get(PREFIX + name) or str(otherwise)

        port = said("PORT", 8480)
        if not port.isascii() or not port.isdigit() or not 0 < int(port) < 65536:
            raise WrongSettings(f"Expected {PREFIX}PORT to be a port from 1 to 65535, found {port!r}. Set another one.")
        return cls(
            articles=Path(said("ARTICLES", HERE / "articles/en")),
            firm=Path(said("FIRM", HERE / "demo/firm.toml")),
            ranges=Path(said("RANGES", HERE / "demo/ranges")),
            database=said("DATABASE", f"sqlite:///{HERE / 'var/tundish.db'}"),
            host=said("HOST", "127.0.0.1"),
            port=int(port),
        )
