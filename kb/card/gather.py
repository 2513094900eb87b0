"""What belongs on the card of one home, or why is there no card for it yet?"""

import unicodedata
from collections.abc import Iterator, Mapping
from dataclasses import replace
from datetime import date, datetime
from typing import Final

from kb import firm as firms
from kb import keys
from kb.appliance import Range
from kb.card import words
from kb.card.danger import danger_of
from kb.card.dial import figure
from kb.card.faults import USUAL, faults_of
from kb.card.hours import said
from kb.card.palette import INK
from kb.card.priority import carried, carries
from kb.card.qr import fits
from kb.card.sizes import FORMATS
from kb.card.value import Card, Danger, Firm, Reason, Refused, Rule, Setting, Spot, Style
from kb.facts import Known
from kb.home import Home, home_limits
from kb.library import Library
from kb.prose import Block, Shape
from kb.prose import words as plain
from kb.region import Region

A6_PLAIN: Final = Style()
"""A card in its usual size, without a logo."""


def gathered(
    home: Home,
    range: Range,
    firm: firms.Firm,
    region: Region,
    library: Library,
    today: date | None = None,
    style: Style = A6_PLAIN,
) -> Card | Refused:
    """The card of a home before it is known to fit, or every reason against it.

    `today` is the day in the firm's own zone unless another is given.
    """
    known = _known(home, range)
    danger = danger_of(firm, region, known.facts.get("fuel"), today or datetime.now(firm.clock).date())
    reasons = [*_unusable(home, range, firm, style), *(danger if isinstance(danger, tuple) else ())]
    faults = faults_of(library, known)
    if not faults and carries(style.size, "faults"):
        reasons.append(Reason("articles", "No fault has lines that suit this home.", _CARD_LINES))
    if reasons or isinstance(danger, tuple):
        return Refused(tuple(reasons))
    card = carried(replace(_card(home, range, firm, region, danger, known, style), faults=faults))
    unseen = tuple(_unseen(card))
    return Refused(unseen) if unseen else card


_CARD_LINES: Final = "Write two or three lines under `### On the card` in the commonest faults."


def _known(home: Home, range: Range) -> Known:
    """What is known about a home, with how often its boiler may be reset.

    Unburnt oil gathers with every reset, so an oil boiler is reset once.
    A gas boiler open to the room may stop because its fumes spill, so its household never resets it.
    """
    known = home_limits(home, range)
    gas_usual = 0 if known.facts.get("flue") == "open" else USUAL["reset"]
    usual = 1 if known.facts.get("fuel") == "oil" else gas_usual
    return replace(known, limits={**known.limits, "reset": min(usual, known.limits.get("reset", usual))})


def _unusable(home: Home, range: Range, firm: firms.Firm, style: Style) -> Iterator[Reason]:
    if not home.key:
        yield Reason("home.key", "The home has no key.", "Give the home a key first.")
    elif keys.tidy(home.key) != home.key:
        yield Reason("home.key", f"{home.key!r} is no key as it is printed.", "Give the home a key made here.")
    elif not fits(_page(home, firm), FORMATS[style.size].qr):
        found = f"The address {_page(home, firm)} is too long for a QR code of this size that a phone can read."
        yield Reason("firm.site", found, "Serve the site under a shorter address.")
    if range.id != home.range:
        found = f"The home has the range {home.range!r}, and the range given is {range.id!r}."
        yield Reason("home.range", found, "Name the range whose reset rule the card is to carry.")
    if home.known.facts.get("system") not in ("sealed", "vented"):
        found = "Nothing says whether the heating is sealed or vented."
        yield Reason("home.facts.system", found, "Say which, so that nobody looks for a gauge that is not there.")


def _page(home: Home, firm: firms.Firm) -> str:
    return f"{firm.site}/h/{home.key}"


def _card(
    home: Home, range: Range, firm: firms.Firm, region: Region, danger: Danger, known: Known, style: Style
) -> Card:
    sealed = known.facts["system"] == "sealed"
    aim = Rule(words.AIM.format(bar=figure(known.marks.aim)), ())
    sides = FORMATS[style.size].sides
    return Card(
        size=style.size,
        language=region.language,
        title=words.TITLE.format(appliance=home.appliance, firm=firm.name),
        demo=words.DEMO if firm.demo else "",
        danger=danger,
        firm=_firm(firm, style),
        marks=known.marks if sealed else None,
        gauge=aim if sealed else Rule(words.NO_GAUGE, words.NO_GAUGE_MORE),
        page=_page(home, firm),
        page_typed=(f"{firm.site.removeprefix('https://')}/h/", home.key),
        page_invitation=words.PAGE,
        first=words.FIRST,
        faults=(),
        reset=_reset(range, known.limits["reset"]),
        never=Rule(words.NEVER, tuple(_never(known.facts))),
        places=tuple(_places(home)),
        foot=(words.OWN_INSTRUCTIONS, _service(home.next_service), home.appliance, firm.registration),
        front=Setting(sides["front"].first),
        back=Setting(sides["back"].first),
    )


def _firm(firm: firms.Firm, style: Style) -> Firm:
    first, *others = firm.phones
    also = [_WHAT[phone.what].format(number=phone.number) for phone in others]
    texts = next((phone.number for phone in firm.phones if phone.sms), None)
    if texts and texts not in [phone.number for phone in others]:
        also.append(words.TEXTS.format(number=texts))
    return Firm(
        invitation=words.INVITATION,
        name=firm.name,
        phone=first.number,
        also=tuple(also),
        hours=said(firm.hours),
        registration=firm.registration,
        colour=firm.colour or INK,
        logo=style.logo,
    )


_WHAT: Final[Mapping[str, str]] = {
    "office": "{number}",
    "out-of-hours": words.OUT_OF_HOURS,
    "mobile": words.MOBILE,
}


def _reset(range: Range, at_most: int) -> Rule:
    """How this range is reset, how often, and when never."""
    if at_most == 0:
        return Rule(words.NO_RESET_TITLE, words.NO_RESET)
    how_often = words.RESET_ONCE if at_most == 1 else words.RESET_TWICE
    return Rule(words.RESET, (*_how(range.reset), how_often, words.RESET_NEVER))


def _how(reset: tuple[Block, ...]) -> tuple[str, ...]:
    """The steps if they are a list, else the first paragraph: whole, since half an instruction is a wrong one.

    They run on in one paragraph, since each is a short sentence.
    """
    said = [block for block in reset if block.shape is not Shape.CAUTION]
    steps = [block for block in said if block.shape in (Shape.NUMBERS, Shape.BULLETS)]
    sentences = [_sentence(plain(line)) for block in (steps or said)[:1] for line in block.lines]
    return (" ".join(sentences),) if sentences else ()


def _sentence(words: str) -> str:
    return words if words.endswith((".", "!", "?")) else f"{words}."


def _never(facts: Mapping[str, str]) -> Iterator[str]:
    yield words.NEVER_CASE
    yield words.NEVER_OIL if facts.get("fuel") == "oil" else words.NEVER_GAS
    yield words.NEVER_FLUE
    yield words.NEVER_FLAME
    yield words.NEVER_CLIMB


def _places(home: Home) -> Iterator[Spot]:
    for id, label in words.PLACE.items():
        if id in home.places:
            oil = id == "gas-valve" and home.known.facts.get("fuel") == "oil"
            yield Spot(id, words.OIL_VALVE if oil else label, home.places[id])


def _service(due: date | None) -> str:
    if due is None:
        return words.NO_SERVICE
    return words.SERVICE.format(day=due.day, month=words.MONTHS[due.month - 1], year=due.year)


def _unseen(card: Card) -> Iterator[Reason]:
    """Texts that hold a character nobody sees, which could turn a number round or break a line."""
    for field, text in card.texts():
        # What Python counts as printable has no such character, and asking that is a hundred times faster.
        if not text.isprintable() and any(unicodedata.category(sign).startswith("C") for sign in text):
            yield Reason(field, f"{text!r} holds a character that cannot be printed.", "Type the text again.")
