"""What does a side of a card say, in the order in which it is read, for whoever does not see its picture?"""

from collections.abc import Iterator

from kb.card import gauge, words
from kb.card.sizes import Side
from kb.card.value import Card, Fault


def read_out(card: Card, side: Side) -> str:
    """Every word of a side, its pictures told in words, as the printed card's own tags have it."""
    lines = _front(card) if side == "front" else _back(card)
    return " ".join(_sentence(line) for line in lines if line)


def _front(card: Card) -> Iterator[str]:
    if card.demo:
        yield f"{words.DEMO_WORD}. {card.demo}"
    yield card.danger.title
    yield from (line.words for line in card.danger.lines)
    yield from (f"{call.when} {call.number}, {call.who}" for call in card.danger.calls)
    yield card.danger.last
    if card.size == "a6":
        yield from (_logo(card), *_firm(card), *_gauge(card), *_code(card))
    elif card.size == "a5":
        yield from (_logo(card), *_firm(card), card.page_invitation, _picture(card))
    if card.size != "id1":
        yield _typed(card)


def _back(card: Card) -> Iterator[str]:
    yield card.first
    if card.demo:
        yield words.DEMO_WORD
    if card.size == "id1":
        yield from (*_firm(card), _logo(card), *_code(card), _typed(card), card.gauge.title, *card.foot)
        return
    for fault in _in_columns(card):
        yield from (fault.title, *fault.lines)
    for rule in (card.reset, card.never):
        yield from (rule.title, *rule.lines)
    if card.size == "a5":
        yield from (card.gauge.title, *card.gauge.lines, *_scale(card))
    yield from (f"{spot.label}: {spot.where}" for spot in card.places)
    yield from card.foot


def _in_columns(card: Card) -> tuple[Fault, ...]:
    """The faults as they are read: on A6 one column after the other."""
    return (*card.faults[::2], *card.faults[1::2]) if card.size == "a6" else card.faults


def _firm(card: Card) -> Iterator[str]:
    firm = card.firm
    yield from (firm.invitation, firm.name, firm.phone, *firm.also, *firm.hours)


def _logo(card: Card) -> str:
    return words.LOGO_ALT.format(firm=card.firm.name) if card.firm.logo else ""


def _gauge(card: Card) -> Iterator[str]:
    yield from (*_scale(card), card.gauge.title, *card.gauge.lines)


def _scale(card: Card) -> Iterator[str]:
    if card.marks:
        yield f"{gauge.TITLE}. {gauge.described(card.marks)}"


def _code(card: Card) -> Iterator[str]:
    yield from (_picture(card), card.page_invitation)


def _picture(card: Card) -> str:
    return words.QR_ALT.format(page=card.page)


def _typed(card: Card) -> str:
    return f"{words.TYPE} {''.join(card.page_typed)}"


def _sentence(line: str) -> str:
    return line if line.endswith((".", "!", "?")) else f"{line}."
