"""What are the words of a text, clause by clause, in a form that spelling and typing habits do not change?"""

import re
import unicodedata
from typing import Final, TypeAlias

Clause: TypeAlias = tuple[str, ...]
"""The words of one clause, in lower case, without apostrophes."""

LONGEST: Final = 12_000
"""As much of a text as is read: more than anybody types, and a letter of three pages."""

LONGEST_CLAUSE: Final = 40
"""A clause with more words is cut, so that reading never takes longer than the text is long."""

_APOSTROPHES: Final = re.compile(r"(?<=\w)['’‘ʼ`´′](?=\w)")
_SHORTHAND: Final = (
    (re.compile(r"\bc\s*/\s*h\b"), "ch"),
    (re.compile(r"\bh\s*/\s*w\b"), "hw"),
    (re.compile(r"\bc\.o\b\.?"), "co"),
    (re.compile(r"\bw/o\b"), "without"),
    (re.compile(r"\bb/c\b"), "because"),
    (re.compile(r"\bw/"), "with "),
    (re.compile(r"\bp/kwh\b"), " kwh"),
    (re.compile(r"[&+]"), " and "),
    (re.compile(r"/"), " or "),
    (re.compile(r"(?<=\d),(?=\d)"), "."),
    (re.compile(r"(?<!\w)[-−](?=\d)"), " minus "),
    (re.compile(r"(?<=\w)[-‐‑](?=\w)"), " "),
    (re.compile(r"[£$€]\s?"), " money "),
)
_PIECES: Final = re.compile(r"\d+(?:\.\d+)?|\.\d+|[^\W\d_]+|[.,;:!?…()\[\]\n–—-]")
_STOPS: Final = frozenset(".,;:!?…()[]\n–—-")
_CONTRASTS: Final = frozenset(
    {"but", "although", "though", "tho", "however", "whereas", "except", "while", "whilst", "yet"}
)
_REPLIES: Final = frozenset({("no",), ("yes",), ("nope",), ("yep",)})
"""What somebody says to a question of their own: "Heating? No. Hot water? Yes." """
_IN_CAPITALS: Final = re.compile(r"(?<![\w&])CO2?(?![\w&])")
_MARKS: Final = re.compile(r"[\u0300-\u036f]")


def clauses(text: str) -> tuple[Clause, ...]:
    """The clauses of a text: cut at its stops and where it says "but" or the like.

    Anything may be given: what is no word and no number is passed over, and what is beyond `LONGEST` is not read.
    """
    found: list[Clause] = []
    clause: list[str] = []
    asked = False
    for piece in _PIECES.findall(_tidy(text[:LONGEST])):
        if piece in _STOPS or piece in _CONTRASTS or len(clause) >= LONGEST_CLAUSE:
            if clause:
                _close(clause, found, asked)
            asked = piece == "?"
            # "except" says no to what follows; the others only part two clauses.
            clause = [] if piece in _STOPS or piece in _CONTRASTS - {"except"} else [piece]
        else:
            clause.append(piece)
    if clause:
        _close(clause, found, asked)
    return tuple(found)


def _close(clause: list[str], found: list[Clause], asked: bool) -> None:
    if asked and found and tuple(clause) in _REPLIES:
        found[-1] += tuple(clause)
    else:
        found.append(tuple(clause))


def _tidy(text: str) -> str:
    # Taken apart into letter and accent, some apostrophes would become blanks, and the sign for degrees an o.
    text = _APOSTROPHES.sub("", text).replace("°", " degrees ").replace("º", " degrees ")
    # Typed in capitals it is the gas, in small letters it may be a company.
    text = _IN_CAPITALS.sub(" carbon monoxide ", unicodedata.normalize("NFKD", text))
    plain = _APOSTROPHES.sub("", _MARKS.sub("", text.casefold()))
    for written, meant in _SHORTHAND:
        plain = written.sub(meant, plain)
    return plain
