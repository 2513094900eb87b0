"""How does a household read its trail out over the phone, and how does the desk take it back?

A call reference is the article in three characters, then one character an answer, a figure that was typed in two
more, and at the end two characters that know every answer and one that catches a slip of the tongue.
Its characters are those of a home's key, of which none is taken for another.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum
from hashlib import blake2b
from typing import Final

from kb.article import Audience, End, Step
from kb.facts import NOTHING_KNOWN, Known
from kb.guide import NONE_OF_THESE, Guide, State, Taken, Trouble, answer_to, none_of
from kb.keys import ALPHABET
from kb.library import Library
from kb.trail import follow_trail, gone_words
from kb.walk import walk

_BASE: Final = len(ALPHABET)
_ARTICLE: Final = 3
_WHOLE: Final = 2
_READING: Final = 2
_GROUP: Final = 4
_LONGEST: Final = 200
_TYPED: Final = "~"
"""What stands for "a figure was typed" among the answers of a step that reads a gauge."""

_BETWEEN: Final = re.compile(r"[\s\-\u2010-\u2015\u2212]+")


class Slip(StrEnum):
    """Why a reference cannot be taken as it was said."""

    MISTYPED = "mistyped"
    NO_SUCH_ARTICLE = "no-such-article"
    ANSWER_GONE = "answer-gone"
    CHANGED = "changed"


@dataclass(frozen=True, slots=True)
class Heard:
    """What a reference says.

    With `ANSWER_GONE`, `trail` holds every answer that was given, `gone` says which are no more, and
    `kb.trail.follow_trail` leads along the others.
    With `CHANGED`, no library is known in which all of it was given: `trail` leads as far as it can be read, `lost`
    counts the answers after that, and those before may not be what was given: read each back to the caller.
    `title` is what an article was called that is no more.
    """

    article: str
    trail: str
    slip: Slip | None = None
    lost: int = 0
    gone: tuple[str, ...] = ()
    title: str = ""


def reference(library: Library, start: Step, trail: str, known: Known = NOTHING_KNOWN) -> str:
    """The call reference of a trail, in groups of four; what of the trail cannot be followed is left out."""
    standing = walk(library, start, trail, known)
    code = _article_code(start.article)
    guide = Guide(library, known, Audience.HOUSEHOLD)
    state = guide.begin(start)
    pieces = [none_of(library) if piece == NONE_OF_THESE else piece for piece in _pieces(standing.trail)]
    for piece in pieces:
        code += _said(guide, state, piece)
        following = _followed(guide, state, piece)
        assert following is not None, "a standing's own trail can be followed"
        state = following
    code += _whole(start.article, "-".join(pieces))
    return _grouped(code + _check(code))


def heard(library: Library, written: str, known: Known = NOTHING_KNOWN, earlier: Iterable[Library] = ()) -> Heard:
    """The walk that a call reference stands for; any case, spaces and dashes.

    A reference is too short to be read with another library than its own.
    So one that the library of now did not make is read with those of before, the newest first, which are looked at
    only then.
    """
    code = _tidy(written)
    if code is None:
        return Heard("", "", Slip.MISTYPED)
    now = _read(library, code, known)
    for old in earlier if now.slip else ():
        then = _read(old, code, known)
        if then.slip is None:
            return _brought_up(library, old, then, known)
    return now


def _read(library: Library, code: str, known: Known) -> Heard:
    """What a code says in one library."""
    article = next((id for id in library.articles if _article_code(id) == code[:_ARTICLE]), "")
    start = _start(library, article)
    if start is None:
        return Heard("", "", Slip.NO_SUCH_ARTICLE)
    answers, whole = code[_ARTICLE:-_WHOLE], code[-_WHOLE:]
    trail, lost = _followed_by_ear(Guide(library, known, Audience.HOUSEHOLD), start, answers)
    sure = not lost and _whole(article, trail) == whole
    return Heard(article, trail, None if sure else Slip.CHANGED, lost)


def _brought_up(library: Library, old: Library, then: Heard, known: Known) -> Heard:
    """What was said in an older library, for the library of now; an article that has another name goes by its title."""
    title = old.articles[then.article].title
    called = (article.id for article in library.articles.values() if article.title == title)
    article = then.article if _start(library, then.article) else next(called, "")
    start = _start(library, article)
    if start is None:
        return Heard("", "", Slip.NO_SUCH_ARTICLE, title=title)
    gone = gone_words(follow_trail(library, start, _pieces(then.trail), known, [old]).gone)
    return Heard(article, then.trail, Slip.ANSWER_GONE if gone else None, gone=gone)


def _start(library: Library, article: str) -> Step | None:
    found = library.articles.get(article)
    return found.first(Audience.HOUSEHOLD) if found else None


def _followed_by_ear(guide: Guide, start: Step, answers: str) -> tuple[str, int]:
    """The trail that the answers' characters lead along, and how many of them lead nowhere any more."""
    state, pieces, at = guide.begin(start), list[str](), 0
    while at < len(answers):
        piece, length = _heard(guide, state, answers[at:])
        following = _followed(guide, state, piece) if piece else None
        if following is None:
            break
        state = following
        pieces.append(piece)
        at += length
    return "-".join(pieces), len(answers) - at


def _said(guide: Guide, state: State, piece: str) -> str:
    token, _, figure = piece.partition("~")
    characters = {token: character for character, token in _options(guide, state).items()}
    return characters[_TYPED] + _digits(round(float(figure) * 100), _READING) if figure else characters[token]


def _heard(guide: Guide, state: State, code: str) -> tuple[str, int]:
    token = _options(guide, state).get(code[0], "")
    if token != _TYPED or not isinstance(state.at, Step):
        return token, 1
    figure = _number(code[1 : 1 + _READING]) / 100
    answer = answer_to(state.at, figure, guide.known)
    return (f"{answer.token}~{figure:g}", 1 + _READING) if answer else ("", 1)


def _followed(guide: Guide, state: State, piece: str) -> State | None:
    following = guide.follow(state, piece, list[Taken]())
    return None if isinstance(following, Trouble) else following


def _options(guide: Guide, state: State) -> Mapping[str, str]:
    """A character for every answer that may be given now.

    Each takes the first free one of its own order, so that most keep theirs when another answer comes or goes.
    """
    taken: dict[str, str] = {}
    for token in sorted(_tokens(guide, state)):
        order = (ALPHABET[each % _BASE] for each in blake2b(token.encode(), digest_size=64).digest())
        free = next((c for c in (*order, *ALPHABET) if c not in taken), None)
        if free is not None:
            taken[free] = token
    return taken


def _tokens(guide: Guide, state: State) -> Iterator[str]:
    if isinstance(state.at, End):
        return
    yield from (answer.token for _, answer in guide.open_answers(state))
    if guide.at_danger(state):
        yield none_of(guide.library)
    if state.at.reading:
        yield _TYPED


def _pieces(trail: str) -> list[str]:
    return trail.split("-") if trail else []


def _article_code(article: str) -> str:
    return _hashed(article, _ARTICLE)


def _whole(article: str, trail: str) -> str:
    return _hashed(f"{article} {trail}", _WHOLE)


def _hashed(words: str, length: int) -> str:
    return _digits(int.from_bytes(blake2b(words.encode(), digest_size=8).digest(), "big"), length)


def _digits(number: int, length: int) -> str:
    return "".join(ALPHABET[number // _BASE**place % _BASE] for place in range(length))


def _number(digits: str) -> int:
    return sum(ALPHABET.index(digit) * _BASE**place for place, digit in enumerate(digits))


def _check(code: str) -> str:
    """The character that catches every single wrong character and every swap of two neighbours, itself included.

    No weight is one that the prime divides, no two neighbours have the same, and none is the check's own, which is -1.
    """
    weighted = sum((place % (_BASE - 2) + 1) * ALPHABET.index(sign) for place, sign in enumerate(code))
    return ALPHABET[weighted % _BASE]


def _tidy(written: str) -> str | None:
    """The characters before the check, or None where the check does not hold."""
    code = _BETWEEN.sub("", written[: _LONGEST + 1])
    if not code.isascii() or not _ARTICLE + _WHOLE < len(code) <= _LONGEST:
        return None
    code = code.upper()
    if set(code) - set(ALPHABET) or _check(code[:-1]) != code[-1]:
        return None
    return code[:-1]


def _grouped(code: str) -> str:
    return " ".join(code[start : start + _GROUP] for start in range(0, len(code), _GROUP))
