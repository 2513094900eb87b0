"""What may a piece of a trail be the answer to, now or in a library of before?"""

from collections.abc import Collection, Container, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from kb.article import Answer, Audience, Step, token_of
from kb.facts import TRIED
from kb.guide import Attempt
from kb.library import Library
from kb.notation import slug


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece as it is looked up: the steps of now that it may answer, or else those of an earlier library.

    `moved` is where the earlier step has gone to, `perhaps` whether it may have gone anywhere, as far as can be seen.
    """

    number: int
    written: str
    steps: tuple[Step, ...]
    before: tuple[tuple[Step, Answer], ...] = ()
    moved: Step | None = None
    perhaps: bool = False

    @property
    def token(self) -> str:
        """What stands for the answer."""
        return self.written.partition("~")[0]

    @property
    def live(self) -> bool:
        """Whether the walk of now may still come by its question."""
        return bool(self.steps) or self.moved is not None

    @property
    def counts(self) -> bool:
        """Whether it says how often something was tried before."""
        return bool(self.steps) and all(step.fact in TRIED.values() for step in self.steps)

    @property
    def unknown(self) -> bool:
        """Whether no library that is known has such an answer."""
        return not self.steps and not self.before

    @property
    def attempt(self) -> Attempt | None:
        """The try that it was; where two steps may be meant, the one that counts."""
        moved = self.moved.target if self.moved else None
        now = (Attempt(step.limit.action, step.target) for step in self.steps if step.limit and step.limit.action)
        then = (Attempt(step.limit.action, moved) for step, _ in self.before if step.limit and step.limit.action)
        return next(iter((*now, *then)), None)


def read(library: Library, start: Step, pieces: Sequence[str], earlier: Iterable[Library]) -> list[Piece]:
    """The pieces of a trail, looked up; `earlier` is looked at for what the library of now does not have."""
    tokens = [piece.partition("~")[0] for piece in pieces]
    now = _places(library, tokens)
    found = [
        Piece(number, piece, tuple(step for step, _ in now.get(token, ())))
        for number, (piece, token) in enumerate(zip(pieces, tokens, strict=True))
    ]
    missing = {each.token for each in found if not each.steps}
    if not missing:
        return found
    before = _before(earlier, missing)
    articles = {start.article, *(step.article for each in found for step in each.steps)}
    perhaps = _written_elsewhere(library, articles) if missing - set(before) else frozenset()
    return [_looked_up(library, each, before, perhaps) for each in found]


def written_in(article: str, step: Step, answer: Answer) -> str:
    """The token that an answer would have if its step stood in another article."""
    return token_of(article, step.anchor, slug(answer.text))


def _looked_up(
    library: Library, piece: Piece, before: Mapping[str, Sequence[tuple[Step, Answer]]], perhaps: Container[str]
) -> Piece:
    those = before.get(piece.token)
    if piece.steps:
        return piece
    if those:
        return replace(piece, before=tuple(those), moved=_moved_to(library, those))
    return replace(piece, perhaps=piece.token in perhaps)


def _before(earlier: Iterable[Library], missing: Collection[str]) -> Mapping[str, Sequence[tuple[Step, Answer]]]:
    found: dict[str, Sequence[tuple[Step, Answer]]] = {}
    for old in earlier:
        left = [token for token in missing if token not in found]
        if not left:
            break
        found |= {token: those for token, those in _places(old, left).items() if those}
    return found


def _written_elsewhere(library: Library, articles: Iterable[str]) -> frozenset[str]:
    return frozenset(
        written_in(article, step, answer)
        for step in library.steps()
        if step.audience is Audience.HOUSEHOLD
        for article in articles
        if article != step.article
        for answer in step.answers
    )


def _places(library: Library, tokens: Iterable[str]) -> Mapping[str, Sequence[tuple[Step, Answer]]]:
    """Every household step that has an answer of one of these tokens, with the answer."""
    found: dict[str, list[tuple[Step, Answer]]] = {token: [] for token in tokens}
    for step in library.steps() if found else ():
        if step.audience is Audience.HOUSEHOLD:
            for answer in step.answers:
                if answer.token in found:
                    found[answer.token].append((step, answer))
    return found


def _moved_to(library: Library, before: Sequence[tuple[Step, Answer]]) -> Step | None:
    """The one step of now that asks the very same and takes the very same answer."""
    asked = {(step.anchor, answer.text) for step, answer in before}
    those = [
        step
        for step in library.steps()
        if step.audience is Audience.HOUSEHOLD and any((step.anchor, answer.text) in asked for answer in step.answers)
    ]
    return those[0] if len(those) == 1 else None


def answer_of(step: Step, token: str) -> Answer:
    """The answer of a step that has this token."""
    return next(answer for answer in step.answers if answer.token == token)
