"""Which words does a library say to whom, and where does each of them stand?"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum

from kb.article import Article, Audience, End, Passage, Step
from kb.findings import Place
from kb.library import Library
from kb.prose import Block, words
from kb.region import Region


class Role(StrEnum):
    """What a text is for."""

    TITLE = "a title"
    PROSE = "a text"
    ANSWER = "an answer"
    CARD = "the card"
    ORDER = "an order of actions"


@dataclass(frozen=True, slots=True)
class Text:
    """Some words, what they are for, and where they stand."""

    role: Role
    words: str
    place: Place


@dataclass(frozen=True, slots=True)
class Unit:
    """The texts that a household reads together, with the step, end or passage they belong to."""

    texts: tuple[Text, ...]
    owner: Step | End | Passage | None = None

    @property
    def words(self) -> str:
        """All the words, a line for each line."""
        return "\n".join(text.words for text in self.texts)

    def place_of(self, sentence: str) -> Place:
        """Where a sentence of this unit stands."""
        return next(text.place for text in self.texts if sentence in text.words)


def household_units(library: Library) -> Iterator[Unit]:
    """Everything that households read, in the pieces they read together."""
    for article in library.articles.values():
        yield from units(article, Audience.HOUSEHOLD)
    for region in library.regions.values():
        yield from order_units(region)


def units(article: Article, audience: Audience) -> Iterator[Unit]:
    """The pieces of an article for one audience; an answer is a piece of its own."""
    household = audience is Audience.HOUSEHOLD
    if household:
        yield Unit((Text(Role.TITLE, article.title, Place(article.file, 1)),))
    yield Unit(tuple(_prose(article.intro if household else article.notes)))
    for owner in article.parts:
        if owner.audience is not audience:
            continue
        yield Unit((Text(Role.TITLE, owner.title, owner.place), *_prose(owner.body)), owner)
        for answer in owner.answers if isinstance(owner, Step) else ():
            yield Unit((Text(Role.ANSWER, answer.text, answer.place),), owner)
    if household:
        for line in card_lines(article):
            yield Unit((line,))


def card_lines(article: Article) -> tuple[Text, ...]:
    """The lines that an article gives to the printed card."""
    return tuple(Text(Role.CARD, words(line), block.place) for block in article.card for line in block.lines)


def order_units(region: Region) -> Iterator[Unit]:
    """The orders of actions of a region, a piece for each action."""
    place = place_of(region)
    for order in region.orders.values():
        for action in order:
            yield Unit(tuple(Text(Role.ORDER, said, place) for said in (action.do, action.why) if said))


def place_of(region: Region) -> Place:
    """The file of a region, as its code names it."""
    return Place(f"regions/{region.code.lower()}.toml", 1)


def _prose(blocks: Iterable[Block]) -> Iterator[Text]:
    for block in blocks:
        yield Text(Role.PROSE, block.text, block.place)
