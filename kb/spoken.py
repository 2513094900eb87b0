"""Which code did somebody read out, in figures, letters, words or a mixture of them?"""

import re
import unicodedata
from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

# Outside source: the spelling alphabet of the ITU Radio Regulations, appendix 14, which ICAO annex 10 shares.
_ALPHABET: Final = (
    "alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november oscar papa quebec romeo "
    "sierra tango uniform victor whiskey x-ray yankee zulu"
)
_OTHER_SPELLINGS: Final = {"alpha": "A", "juliet": "J", "whisky": "W", "xray": "X"}
_LETTER_NAMES: Final = (
    "a:ay b:bee,be c:cee,see,sea d:dee e:ee f:eff,ef g:gee h:aitch,haitch i:eye j:jay k:kay l:ell,el m:em n:en o:oh "
    "p:pee q:queue,cue r:ar,are s:ess,es t:tee,tea u:you v:vee x:ex y:why z:zed,zee"
)
_FIGURES: Final = (
    "0:zero,nought,naught,nil,oh 1:one,won 2:two,to,too 3:three 4:four,for 5:five 6:six 7:seven 8:eight,ate "
    "9:nine,niner 10:ten 11:eleven 12:twelve 13:thirteen 14:fourteen 15:fifteen 16:sixteen 17:seventeen 18:eighteen "
    "19:nineteen"
)
_TENS: Final = "20:twenty 30:thirty 40:forty,fourty 50:fifty 60:sixty 70:seventy 80:eighty 90:ninety"


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


_POINTS: Final = frozenset({"point", "dot", "decimal", ".", ","})
_PASSED_OVER: Final = _set(
    "the a an it its is says say shows show showing reads code codes error fault number letter capital figure "
    "digit then and dash hyphen slash stroke space colon display screen"
)
_ORDINARY: Final = _set("a i to too for won ate be see sea are you why tea eye queue cue ex an it")
_LIKE: Final = frozenset({"for", "as", "like"})
_PIECE: Final = re.compile(r"x-ray|[a-z]+(?:'[a-z]+)?|[0-9]+|(?<=[0-9])[.,](?=[0-9])|[a-z0-9]+")
_LONGEST: Final = 120


def _table(written: str) -> dict[str, str]:
    pairs = (entry.split(":") for entry in written.split())
    return {word: sign.upper() for sign, words in pairs for word in words.split(",")}


CODE_WORDS: Final[Mapping[str, str]] = MappingProxyType(
    {word: word[0].upper() for word in _ALPHABET.split()} | _OTHER_SPELLINGS
)
"""The words of the radio alphabet, and the letter each stands for."""

_SINGLE: Final[Mapping[str, str]] = MappingProxyType({**_table(_LETTER_NAMES), **CODE_WORDS, **_table(_FIGURES)})
_TEN: Final[Mapping[str, str]] = MappingProxyType(_table(_TENS))
_UNIT: Final = _set("one two three four five six seven eight nine 1 2 3 4 5 6 7 8 9")


def pieces(text: str) -> list[str]:
    """The words, letters and figures of a text, in small letters."""
    plain = unicodedata.normalize("NFKC", text[:_LONGEST]).casefold().replace("’", "'")
    return _PIECE.findall(plain)


def spelt_out(text: str) -> str | None:
    """What somebody spelt, as a display would show it; None unless every word of it is a letter or a figure."""
    found = pieces(text)
    signs: list[str] = []
    at = 0
    while at < len(found):
        taken = sign_at(found, at)
        if taken is None and found[at] not in _PASSED_OVER:
            return None
        sign, at = taken or ("", at + 1)
        signs.append(sign)
    return "".join(signs) or None


def sign_at(found: Sequence[str], at: int) -> tuple[str, int] | None:
    """The letters or figures that are spelt from a piece on, and the place behind them; None if it spells none."""
    piece = found[at]
    following = found[at + 1] if at + 1 < len(found) else ""
    if piece in ("double", "triple") and following:
        return _repeated(found, at)
    if len(piece) == 1 and piece.isalpha() and (after := _behind_an_example(found, at)):
        return piece.upper(), after
    if piece in _TEN:
        joined = following in _UNIT
        unit = (_SINGLE.get(following) or following) if joined else ""
        return (_TEN[piece][0] + unit, at + 2) if joined else (_TEN[piece], at + 1)
    if piece in _POINTS:
        return ".", at + 1
    if piece in _SINGLE:
        return _SINGLE[piece], at + 1
    if piece.isdigit() or (len(piece) == 1 and piece.isascii()):
        return piece.upper(), at + 1
    return None


def _repeated(found: Sequence[str], at: int) -> tuple[str, int] | None:
    if found[at] == "double" and found[at + 1] in ("u", "you"):
        return "W", at + 2
    spelt = sign_at(found, at + 1) if found[at + 1] not in ("double", "triple") else None
    if spelt is None:
        return None
    sign, after = spelt
    return sign * (2 if found[at] == "double" else 3), after


def _behind_an_example(found: Sequence[str], at: int) -> int | None:
    """The place behind "for boiler" or "as in boiler"; None where no example word follows."""
    place = at + 1
    if place >= len(found) or found[place] not in _LIKE:
        return None
    place += 2 if found[place + 1 : place + 2] == ["in"] else 1
    word = found[place] if place < len(found) else ""
    # "K for one" is a K, a four and a one, as a telephone writes down what it hears.
    example = word.isalpha() and len(word) > 1 and (word in CODE_WORDS or word not in {*_SINGLE, *_TEN})
    return place + 1 if example else None


def spelt_in(text: str) -> Iterator[str]:
    """Every code that is spelt somewhere in a text by an example or the radio alphabet, with figures behind it."""
    found = pieces(text)
    for at, piece in enumerate(found):
        # "November 20" is a date more often than a code.
        begins = piece in CODE_WORDS and piece != "november"
        begins = begins or (len(piece) == 1 and piece.isalpha() and _behind_an_example(found, at) is not None)
        spelt = _run(found, at) if begins else ""
        if len(spelt) > 1 and any(sign.isdigit() for sign in spelt):
            yield spelt


def spelt_behind(text: str) -> str:
    """The code that is spelt at the very beginning of a text, as behind the word "code"; empty if there is none."""
    found = pieces(text)
    at = 0
    while at < len(found) and found[at] in _PASSED_OVER:
        at += 1
    return _run(found, at)


def _run(found: Sequence[str], at: int) -> str:
    """The signs spelt from a place on, in a sentence: there "to" and "see" are words before they are signs."""
    signs = ""
    while at < len(found) and len(signs) < 4 and (taken := sign_at(found, at)):
        if found[at] in _ORDINARY and _behind_an_example(found, at) is None:
            break
        sign, at = taken
        signs += sign
    return signs.rstrip(".")
