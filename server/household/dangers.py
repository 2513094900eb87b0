"""The danger panel that comes before whatever else was found."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from kb.article import Audience, End
from server.site import Site
from server.web.frame import PhoneLink, phone_link


@dataclass(frozen=True, slots=True)
class Danger:
    """What a danger is asked as, what to do before anything is read, and whose number is shown."""

    asks: str
    first: str
    number: str


OUT: Final = "If so, or if you are not sure: go outside first. Touch no switch. Call from there."
AWAY: Final = "If so, or if you are not sure: keep away from it. Touch no switch."

DANGERS: Final = {
    "gas-smell": Danger("Can you smell gas, or hear it hiss?", OUT, "gas"),
    "carbon-monoxide": Danger("Is an alarm sounding? Do you feel ill? Are there fumes or soot?", OUT, "gas"),
    "fire": Danger("Is there smoke, fire or a burning smell?", OUT, "emergency"),
    "electric": Danger("Are there sparks, or did something give you a tingle?", AWAY, "emergency"),
    "water-steam": Danger("Is water near electrics? Is there steam or boiling?", AWAY, "emergency"),
}
"""Every danger that words can show."""


@dataclass(frozen=True, slots=True)
class Panel:
    """A danger panel: what it asks, what comes first, where the order of actions is, and the number to call."""

    asks: tuple[str, ...]
    first: str
    address: str
    call_name: str
    call: PhoneLink


def panel(site: Site, dangers: Sequence[str], base: str) -> Panel | None:
    """The panel for the dangers that words may mean, the most pressing first, or None for none."""
    if not dangers:
        return None
    worst = DANGERS[dangers[0]]
    return Panel(
        asks=tuple(DANGERS[danger].asks for danger in dangers),
        first=worst.first,
        address=_order_of_actions(site, dangers[0], base),
        call_name=site.region.numbers[worst.number].name,
        call=phone_link(site.firm, site.number(worst.number)),
    )


def _order_of_actions(site: Site, danger: str, base: str) -> str:
    """The page that a yes to this danger's own question leads to, or else the page of all danger questions."""
    questions = site.library.danger
    for step in questions.steps if questions else ():
        for answer in step.answers:
            end = site.library.find(answer.target, Audience.HOUSEHOLD)
            if isinstance(end, End) and end.emergency == danger:
                return f"{base}/help/{step.article}/{answer.token}"
    return f"{base}/danger"
