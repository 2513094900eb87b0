"""Which articles hold these words? The only module that knows whoosh."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from tempfile import TemporaryDirectory
from threading import Lock
from typing import Final

from whoosh.analysis import SpaceSeparatedTokenizer
from whoosh.fields import ID, TEXT, Schema
from whoosh.filedb.filestore import FileStorage, RamStorage
from whoosh.query import Or, Term
from whoosh.scoring import BM25F

WEIGHTS: Final[Mapping[str, float]] = {"title": 3.0, "said": 2.0, "steps": 0.7}
"""How much a word counts by where it stands: in the title, in what people say, in the household's steps."""

_MOST_WORDS: Final = 10


@dataclass(frozen=True, slots=True)
class Page:
    """An article's words for the search, as roots: those of its title, of what people say, of its household steps."""

    id: str
    title: Sequence[str]
    said: Sequence[str]
    steps: Sequence[str]


class _Memory(RamStorage):  # type: ignore[misc]
    """An index in memory whose writer keeps its scraps in a folder of its own.

    Left alone it keeps them in one folder for the whole machine, where two programs that start together take each
    other's away.
    """

    def __init__(self, scraps: str) -> None:
        super().__init__()
        self._scraps = scraps

    def temp_storage(self, name: str | None = None) -> FileStorage:
        """Where scraps are kept until the index is written."""
        return FileStorage(self._scraps)


class TextIndex:
    """Ranks articles by the words they share with a search.

    It is built once and never written to again; its one searcher stands behind a lock, for whoosh's is not
    safe across threads.
    """

    def __init__(self, pages: Iterable[Page]) -> None:
        """Index these pages in memory."""
        text = TEXT(analyzer=SpaceSeparatedTokenizer(), phrase=False)
        schema = Schema(id=ID(stored=True), title=text, said=text, steps=text)
        known: dict[str, Counter[str]] = {field: Counter() for field in WEIGHTS}
        with TemporaryDirectory(prefix="tundish-") as folder:
            index = _Memory(folder).create_index(schema)
            with index.writer() as writer:
                for page in pages:
                    words = {"title": page.title, "said": page.said, "steps": page.steps}
                    writer.add_document(id=page.id, **{field: " ".join(roots) for field, roots in words.items()})
                    for field, roots in words.items():
                        known[field].update(set(roots))
        self._known = known
        self._lock = Lock()
        self._searcher = index.searcher(weighting=BM25F())

    def rank(self, roots: Iterable[str], limit: int) -> Mapping[str, float]:
        """The ids of the articles that share most with these words, each with its score."""
        held = {root: count for root in roots if (count := sum(known[root] for known in self._known.values()))}
        # The rarest words say most, and each word costs time.
        rarest = sorted(held, key=held.__getitem__)[:_MOST_WORDS]
        terms = [
            Term(field, root, boost=weight)
            for root in rarest
            for field, weight in WEIGHTS.items()
            if root in self._known[field]
        ]
        if not terms:
            return {}
        with self._lock:
            return {hit["id"]: hit.score for hit in self._searcher.search(Or(terms), limit=limit)}
