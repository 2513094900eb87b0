"""What did a household type that asks us to call, may it be taken, and what does it see then?"""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime
from hashlib import blake2b
from secrets import token_hex
from typing import Any, Final

from kb.callback import (
    LONGEST_NAME,
    REACH_WORDS,
    SOON,
    Expectation,
    Reach,
    Stretch,
    WrongNumber,
    expect,
    number_to_ring,
    offered,
)
from kb.firm import Firm
from kb.reference import reference
from server.household.compose import base_of
from server.household.ending import Arrival
from server.household.pages import CallPage, ReceivedPage
from server.site import Site
from server.store.requests import KEPT, Asked, Receipt
from server.web.frame import PhoneLink, frame, phone_link

_FORM_ID: Final = re.compile(r"[0-9a-f]{32}")

TRAP: Final = (
    "A program filled in something that nobody sees, so nothing was sent yet. Please send it again, or ring us."
)
TOO_MANY: Final = "We have several requests from you already, and take no more today. Please ring us: {number}."
SEND_AGAIN: Final = "This page was open for too long. Please look it over and send it again."


@dataclass(frozen=True, slots=True)
class Typed:
    """What stands in the form as somebody typed it; `form` is made once for each form that is shown."""

    form: str
    name: str = ""
    phone: str = ""
    reach: Reach = Reach.ANY
    consent: bool = False
    trap: str = ""


def empty() -> Typed:
    """A form that nobody has typed in yet."""
    return Typed(token_hex(16))


def typed_in(fields: Mapping[str, str]) -> Typed:
    """What was typed; whatever no form of ours could send is taken for not typed."""
    form, reach = fields.get("form", ""), fields.get("reach", "")
    return Typed(
        form=form if _FORM_ID.fullmatch(form) else "",
        name=_plain(fields.get("name", ""))[:LONGEST_NAME],
        phone=_plain(fields.get("phone", "")),
        reach=Reach(reach) if reach in set(Reach) else Reach.ANY,
        consent=fields.get("consent") == "yes",
        trap=fields.get("website", ""),
    )


def request_from(site: Site, here: Arrival, typed: Typed) -> Asked | WrongNumber:
    """What is kept of a form, or why nobody could be rung."""
    never = (number.number for number in site.region.numbers.values())
    phone = number_to_ring(typed.phone, site.firm, never)
    if isinstance(phone, WrongNumber):
        return phone
    tried = _tried(site, here) if typed.consent else None
    # The same form sent again is the same request; with another number or time in it, it is another one.
    said = "\0".join((typed.form, typed.name, phone, typed.reach, str(tried)))
    sent = blake2b(said.encode(), digest_size=16).hexdigest()
    return Asked(sent, typed.name, phone, typed.reach, here.end.pace, tried)


def call_page(site: Site, here: Arrival, typed: Typed, wrong_phone: str = "", alert: str = "") -> CallPage:
    """The form, as it stands."""
    back = f"{here.address}/{here.standing.trail}"
    around = frame(site, base_of(here.home))
    answers = _who_answers(site.firm, site.now())
    return CallPage(
        frame=around,
        end=here.end.title,
        back=back,
        here=f"{back}/call-me",
        quicker=(answers or around.phone) if here.end.pace in SOON else None,
        quicker_when="Somebody answers now." if answers else around.hours,
        form=typed.form or token_hex(16),
        name=typed.name,
        phone=typed.phone,
        reaches=tuple((reach.value, REACH_WORDS[reach]) for reach in offered(site.firm)),
        reach=typed.reach.value,
        consent=typed.consent,
        tried=here.told,
        card=here.home is not None,
        kept_days=KEPT.days,
        wrong_phone=wrong_phone,
        alert=alert,
    )


def received_page(site: Site, base: str, back: str, receipt: Receipt) -> ReceivedPage:
    """What was received, and when to expect a call, as it looks now."""
    now = site.now()
    expected = expect(site.firm, receipt.pace, receipt.reach, receipt.at)
    return ReceivedPage(
        frame=frame(site, base),
        title="We have called you" if receipt.done else "We have your request",
        reference=receipt.reference,
        ending=receipt.ending,
        expect=_done() if receipt.done else expected_words(site.firm, expected, receipt.pace in SOON, now),
        with_tried=receipt.with_tried,
        back=back,
        quicker=_who_answers(site.firm, now) if receipt.pace in SOON and not receipt.done else None,
    )


def expected_words(firm: Firm, expected: Expectation | None, soon: bool, now: datetime) -> tuple[str, ...]:
    """When a call may be expected, in the household's words; never more than the firm's hours allow."""
    if expected is None:
        return ("We call you as soon as we can. We cannot say when.",)
    if expected.over(now):
        return ("You should have heard from us by now. Please ring us.",)
    today = now.astimezone(firm.clock).date()
    first = expected.first
    if expected.promised:
        return (f"We call you {_day(first[1].date(), today)}, by {_clock(first[1])}.",)
    left = [each for each in (first, expected.then) if each and each[1] > now]
    words = ", or ".join(_stretch(each, today, now) for each in left)
    return (f"We call you in our opening hours: {words}.", *(() if soon else ("Urgent calls come first.",)))


def _done() -> tuple[str, ...]:
    return ("Somebody here has noted that you were called. If nobody rang you, please ring us.",)


def _tried(site: Site, here: Arrival) -> dict[str, Any]:
    return {
        "article": here.start.article,
        "trail": here.standing.trail,
        "home": here.home.key if here.home else None,
        "reference": reference(site.library, here.start, here.standing.trail, here.known),
        "about": here.about,
        "end": here.end.title,
        "told": [{"question": each.question, "answer": each.answer} for each in here.told],
    }


def _who_answers(firm: Firm, now: datetime) -> PhoneLink | None:
    """The number on which somebody answers now, if there is one."""
    if firm.is_open(now):
        return phone_link(firm, firm.phone.number)
    number = next((phone.number for phone in firm.phones if phone.what == "out-of-hours"), None)
    return phone_link(firm, number) if number else None


def _stretch(stretch: Stretch, today: date, now: datetime) -> str:
    begins, ends = stretch
    if begins <= now:
        return f"today until {_clock(ends)}"
    return f"{_day(begins.date(), today)} from {_clock(begins)}"


def _day(day: date, today: date) -> str:
    match (day - today).days:
        case 0:
            return "today"
        case 1:
            return "tomorrow"
    return f"on {day:%A}"


def _clock(at: datetime) -> str:
    return f"{at.hour}:{at:%M}" if (at.hour, at.minute) != (0, 0) else "midnight"


def _plain(words: str) -> str:
    return " ".join("".join(sign if sign.isprintable() else " " for sign in words).split())
