"""Which libraries were served before the one of now?"""

from collections.abc import Iterator, Mapping
from pathlib import Path
from threading import Lock

from kb.library import Library, build
from kb.notation import read_article
from server.store.libraries import Libraries


def texts_in(folder: Path) -> Mapping[str, str]:
    """The articles of a folder by their files' names; the library itself was read from there and found whole."""
    return {path.name: path.read_text(encoding="utf-8") for path in sorted(folder.glob("*.md"))}


class Earlier:
    """The libraries that this database knows of but for the one that is served, the newest first.

    Each is read from its articles when somebody first asks for it, and kept.
    """

    def __init__(self, libraries: Libraries, served: str) -> None:
        """Know of all but the one that is `served`."""
        self._libraries = libraries
        self._served = served
        self._read: dict[str, Library] = {}
        self._lock = Lock()

    def __iter__(self) -> Iterator[Library]:
        """One after the other, so that whoever has found what they look for reads no more."""
        for fingerprint in self._libraries.fingerprints():
            if fingerprint != self._served and (found := self._library(fingerprint)):
                yield found

    def _library(self, fingerprint: str) -> Library | None:
        with self._lock:
            if fingerprint not in self._read and (texts := self._libraries.texts(fingerprint)):
                articles = (read_article(name, text)[0] for name, text in texts.items())
                self._read[fingerprint] = build(article for article in articles if article)
            return self._read.get(fingerprint)
