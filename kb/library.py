"""A folder of articles as one library, with every finding in it."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final, TypeAlias

from kb.article import Article, Audience, End, Passage, Step
from kb.findings import Finding, Place
from kb.header import Kind
from kb.notation import read_article
from kb.prose import Target
from kb.region import Region, read_region

Reader: TypeAlias = Callable[[str, str], tuple[Article | None, tuple[Finding, ...]]]
"""From a file's name and text to an article and everything that is wrong in it."""

CARRY_ON: Final = Target("ends", "carry-on")
"""The end of an inserted article: the walk goes on where it was interrupted."""

TRIED_ARTICLE: Final = "tried"
"""The article that asks, once, how often a thing was tried before."""


class UnusableFolder(Exception):
    """The library's folder is not there, or holds no article at all.

    The message says what was expected, what was found and what to do next, and may be shown to whoever
    runs the server.
    """


@dataclass(frozen=True, slots=True)
class Library:
    """Every article and region, and what was wrong in the reading of them."""

    articles: Mapping[str, Article]
    regions: Mapping[str, Region]
    findings: tuple[Finding, ...]
    danger: Article | None
    _places: Mapping[Target, Step | End] = field(repr=False)
    _passages: Mapping[Target, Passage] = field(repr=False)

    def find(self, target: Target, audience: Audience) -> Step | End | None:
        """The step or end at a target, or None where there is none that this audience may see."""
        if target.anchor:
            place = self._places.get(target)
        else:
            article = self.articles.get(target.article)
            place = article.first(audience) if article else None
        if place is None or (audience is Audience.HOUSEHOLD and place.audience is Audience.ENGINEER):
            return None
        return place

    def passage(self, target: Target, audience: Audience) -> Passage | None:
        """The passage at a target, or None where there is none that this audience may see."""
        found = self._passages.get(target)
        return found if found and (found.audience is audience or audience is Audience.ENGINEER) else None

    def passages(self, end: End, facts: Mapping[str, str]) -> tuple[Passage, ...]:
        """What an end shares with others, as far as it suits a home with these facts."""
        shared = (self.passage(target, end.audience) for target in end.shares)
        return tuple(passage for passage in shared if passage and passage.suits(facts))

    def faults(self) -> tuple[Article, ...]:
        """The faults, those people ring about most first."""
        faults = (article for article in self.articles.values() if article.header.kind is Kind.FAULT)
        return tuple(sorted(faults, key=lambda article: (article.header.often or 99, article.id)))

    def how_tos(self) -> tuple[Article, ...]:
        """The how-tos for households, by title."""
        return self._by_title(Kind.HOW_TO)

    def settings(self) -> tuple[Article, ...]:
        """The settings explained for engineers, by title."""
        return self._by_title(Kind.SETTING)

    def _by_title(self, kind: Kind) -> tuple[Article, ...]:
        those = (article for article in self.articles.values() if article.header.kind is kind)
        return tuple(sorted(those, key=lambda article: article.title))

    def steps(self) -> Iterator[Step]:
        """Every step of every article."""
        for article in self.articles.values():
            yield from article.steps

    def ends(self) -> Iterator[End]:
        """Every end."""
        for article in self.articles.values():
            yield from article.ends


def build(articles: Iterable[Article], regions: Iterable[Region] = (), findings: Iterable[Finding] = ()) -> Library:
    """A library from articles and regions already read."""
    by_id = {article.id: article for article in articles}
    places: dict[Target, Step | End] = {}
    for article in by_id.values():
        for step in article.steps:
            places.setdefault(step.target, step)
        for end in article.ends:
            places.setdefault(end.target, end)
    passages = {passage.target: passage for article in by_id.values() for passage in article.passages}
    danger = next((article for article in by_id.values() if article.header.kind is Kind.DANGER), None)
    return Library(by_id, {region.code: region for region in regions}, tuple(findings), danger, places, passages)


def load(folder: Path, read: Reader = read_article) -> Library:
    """Read every article and region in a folder; a file that cannot be read is a finding like any other.

    `read` may remember what it has read, for a folder that is loaded again and again.

    Raises UnusableFolder if there is no such folder or no article in it.
    """
    if not folder.is_dir():
        raise UnusableFolder(f"Expected a folder of articles at {folder}, but there is none. Name the right folder.")
    articles: list[Article] = []
    regions: list[Region] = []
    findings: list[Finding] = []
    for path in sorted(folder.glob("*.md")):
        text = _text(path, folder, findings)
        article, found = read(path.name, text) if text is not None else (None, ())
        articles += [article] if article else []
        findings += found
    for path in sorted(folder.glob("regions/*.toml")):
        text = _text(path, folder, findings)
        region, found = read_region(f"regions/{path.name}", text) if text is not None else (None, ())
        regions += [region] if region else []
        findings += found
    if not articles and not findings:
        raise UnusableFolder(f"Expected articles (*.md) in {folder}, but there is none. Name the right folder.")
    return build(articles, regions, findings)


def _text(path: Path, folder: Path, findings: list[Finding]) -> str | None:
    try:
        return path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        why = "is not UTF-8 text" if isinstance(error, UnicodeDecodeError) else "cannot be opened"
        findings.append(
            Finding(
                Place(str(path.relative_to(folder)), 1),
                "unreadable",
                f"The file {why}.",
                "Save it as UTF-8 text that this account may read.",
            )
        )
        return None
