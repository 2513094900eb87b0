"""Which parts of a sentence ask its reader to do something?

A request is an imperative, "you can / may / should / need to ...", "it is safe to ...", "can you ...?", or a
condition that takes the act for granted ("once the cover is off").
A prohibition, a description, a question about what was done, and what somebody of the trade will do are none.
Words that are asked for are told from the verb on, up to a "not" or "without" behind it.
This is no grammar of English: it knows the short, plain sentences that articles are made of, and where it doubts
it takes a sentence for a request.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

_VERBS: Final = frozenset(
    re.findall(
        r"\w+",
        """
        add adjust aim allow alter apply ask attach bleed block boil book borrow break bridge bring burn bypass call
        cap catch change check clean clear click climb close come connect count cover crawl cut defrost detach
        disconnect dismantle do drain drop dry ease empty fasten feel fetch fill find fit flick flip follow get give
        go grab grip hang have heat hold ignore jam keep knock lay lean leave let lift light listen look loosen lower
        make mark measure melt move mute note open pass phone place plug point poke pop pour press prise prop pull
        push put raise reach read reconnect refill release relight remove reopen repeat replace report reset restart
        restore ring run say seal search see set shake shine shut silence sit slacken slide smoke sniff splash stand
        start stay step stop strike strip stuff swap sweep swing switch take tap tape tell test thaw throw tie tighten
        tip top touch trace trickle try tug turn twist unclip undo unhook unlatch unlock unplug unscrew use wait wake
        walk warm wash watch wave wedge whip wipe work wrap write
        """,
    )
)
_FILLER: Final = (
    r"(?:(?:then|now|first|next|please|just|also|gently|slowly|carefully|briefly|always|only|simply|quickly|instead|"
    r"finally|again|later|so|yes|ok|with care|by hand|to begin|after that|in the meantime|otherwise|and|but|or|"
    r"from outside|from the ground|if you can|if it is safe|if safe|if so|if not|when safe|once safe|when ready),? )*"
)
_NOT: Final = r"(?:never|not|cannot|can't|don't|do not|mustn't|shouldn't|no|nor|neither|avoid|without|stop(?= \w+ing))"
_MODAL: Final = (
    r"(?:can(?!'|not)|may|could(?!n)|should(?!n)|must(?!n)|might|need to|have to|ought to|will have to|"
    r"will need to|are able to|"
    r"are allowed to|'ll have to|'ll need to|will want to|want to)"
)
_ADVERB: Final = r"(?:(?:also|then|now|just|safely|simply|always|only|first|even|still|easily|carefully|gently) )*"
_DOUBLE_NOT = re.compile(
    r"\b(?:do not|don't|never) (?:forget|hesitate|be afraid|be shy|be scared|be tempted not) to\b|\bwhy not\b"
)
_JOIN = re.compile(r"(,? ?\b(?:and then|and|or|nor|but|then)\b |[,;:] (?:and then |and |or |nor |but |then )?| [–—-] )")
_SUBORDINATE = re.compile(
    r"(?<!\w)(?=(?:if|when|while|because|unless|where|whether|in case|as long as)\b|"
    r"(?<!at )(?:once|after|before|until) (?!(?:and|or|but|then|to|more|a|an|in|every|only|if|when)\b)\w)"
)
_IMPERATIVE = re.compile(rf"{_FILLER}(?P<part>(?P<verb>[a-z]+)\b.*)")
_OFFERED = re.compile(
    rf"(?:\byou ?{_ADVERB}{_MODAL}|\b(?:can|could|will|would|may) you|\byou (?:will |'ll )?(?=need )|"
    rf"\b(?:it is|it's|it should be|it is quite|is) (?:safe|fine|ok|okay|all right|allowed|best|easiest|enough|worth|"
    rf"better|possible|quickest) (?:for you )?to|\bmake sure (?:you|to)|"
    rf"\b(?:try|start by|begin by|by|how about)(?= \w+ing))"
    rf" ?{_ADVERB}(?P<part>.*)"
)
_GRANTED = re.compile(
    r"(?:after|once|when|before|while|until) (?:you (?:have |'ve )?(?:just )?(?P<yours>\w.*)|(?P<doing>\w+ing\b.*)|"
    r"(?P<done>(?:the|its|that|this|both) .*"
    r"\b(?:off|removed|undone|unscrewed|lifted|open|opened|on again|back on)\b.*))"
)
_PASSIVE = re.compile(
    r"(?P<what>.*?)\b(?:can|may|must|should|could|needs? to|has to|have to) (?:then |now |also |just |safely )?be "
    r"(?P<done>\w+(?:ed|en|wn|ne|ut|lit)\b.*)"
)
_TRADE: Final = (
    r"\b(?:engineers?|electricians?|installers?|fitters?|plumbers?|landlords?|suppliers?|the firm|the network|"
    r"fire service|emergency service|professionals?|they|sweep)\b"
)
_DELEGATING: Final = frozenset(
    ("ask", "call", "phone", "ring", "tell", "let", "leave", "wait", "get", "have", "book", "see", "watch", "allow")
)
_ENDED_BY = re.compile(
    r"\b(?:never|not|no|nor|without(?! (?:its|the|a) (?:case|cover|front|panel))|"
    r"instead of|rather than|nothing|avoid)\b"
)
_QUESTION = re.compile(
    rf"{_FILLER}(?:did|do|does|have|has|had|is|are|was|were) (?:you|they|we|it|the|your|any|there|anyone)\b"
)

_OWN_SUBJECT = re.compile(
    rf"{_FILLER}(?:you|it is|it's|do not|don't|never|can you|could you|they|"
    r"the \w+ (?:may|can|will|must|should))\b"
)


@dataclass(frozen=True, slots=True)
class _Clause:
    """A piece of a sentence, what it asks for if anything, and whether it forbids or only tells."""

    asks: str = ""
    forbids: bool = False
    tells: bool = False


def asked(sentence: str) -> Iterator[str]:
    """Each thing the sentence asks its reader to do, in small letters, from the verb on."""
    pieces = list(_pieces(_tidy(sentence)))
    before = _Clause()
    for number, (joiner, piece) in enumerate(pieces):
        carried = _carried(before, joiner, piece, pieces[number + 1 :])
        before = carried or _read(piece, first=number == 0)
        if before.asks:
            yield before.asks


def _tidy(sentence: str) -> str:
    plain = sentence.lower().replace("’", "'").replace("(", ", ").replace(")", ", ")
    plain = re.sub(r"[\"“”*]|(?<!\w)'|'(?!\w)", "", plain)
    return re.sub(r"\s+", " ", _DOUBLE_NOT.sub("", plain)).replace(" ,", ",").strip(" ,.!")


def _pieces(sentence: str) -> Iterator[tuple[str, str]]:
    """The clauses of a sentence, each with the word or mark that joins it to the one before."""
    joiner, held = "", ""
    for part in _SUBORDINATE.split(sentence):
        if held:
            yield joiner, held
        joiner, held = "", ""
        between = _JOIN.split(part)
        for mark, piece in zip(["", *between[1::2]], between[0::2], strict=True):
            if held and not _begins(piece):
                held += mark + piece
                continue
            if held:
                yield joiner, held
            joiner, held = mark, piece
    if held:
        yield joiner, held


def _begins(piece: str) -> bool:
    """Whether a piece is a clause of its own and not one more thing of the clause before."""
    found = _IMPERATIVE.match(piece)
    return (found is not None and found["verb"] in _VERBS) or _OWN_SUBJECT.match(piece) is not None


def _carried(before: _Clause, joiner: str, piece: str, after: list[tuple[str, str]]) -> _Clause | None:
    """What a clause without a subject of its own takes over from the clause it is joined to."""
    if not re.match(r"[a-z]+\b", piece) or piece.split()[0] not in _VERBS:
        return None
    mark = joiner.strip()
    if before.forbids and (mark in {"or", "nor", ", or", ", nor"} or (mark == "," and _reaches_or(after))):
        return before
    return before if before.tells and mark in {"and", "or"} else None


def _reaches_or(after: list[tuple[str, str]]) -> bool:
    for joiner, _ in after:
        mark = joiner.strip(" ,")
        if mark:
            return mark in {"or", "nor"}
    return False


def _read(piece: str, first: bool) -> _Clause:
    granted = _GRANTED.match(piece)
    if granted:
        part = granted["yours"] or granted["doing"] or f"with {granted['done']}"
        return _Clause(asks=_cut(part), tells=first)
    if _SUBORDINATE.match(piece):
        # Behind a request, "until it is cold and open the case" goes on with the request.
        return _Clause(tells=first)
    if re.match(rf"{_FILLER}{_NOT}\b", piece):
        return _Clause(forbids=True)
    if _QUESTION.match(piece):
        return _Clause(tells=True)
    imperative = _IMPERATIVE.match(piece)
    if imperative and imperative["verb"] in _VERBS:
        return _Clause(asks=_cut(_without_trade(imperative["part"], imperative["verb"])))
    offered = _OFFERED.search(piece)
    if offered:
        return _offer(piece, offered)
    passive = _PASSIVE.match(piece)
    if passive and not re.search(rf"{_NOT}|\b(?:only )?by (?:an?|the|your)\b.*", piece):
        return _Clause(asks=f"have {passive['what']} {passive['done']}".replace("  ", " "))
    return _Clause(tells=bool(re.search(r"\b(?:may|can|will|must|should|could|to)\b", piece)))


def _offer(piece: str, offered: re.Match[str]) -> _Clause:
    denied = re.search(rf"\b{_NOT}\b|n't\b", piece[: offered.start("part")]) or re.match(rf"{_NOT}\b", offered["part"])
    return _Clause(forbids=True) if denied else _Clause(asks=_cut(offered["part"]))


def _without_trade(part: str, verb: str) -> str:
    """The part without what somebody of the trade is asked, let or waited for to do."""
    return re.split(_TRADE, part)[0] if verb in _DELEGATING else part


def _cut(part: str) -> str:
    return _ENDED_BY.split(part)[0].strip(" ,")
