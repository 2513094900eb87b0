"""Where a walk ended to what the page of that end shows."""

from dataclasses import dataclass

from kb.article import Call, End, Pace, Step
from kb.callback import SOON, offers_call
from kb.contact import first_aid_lines, whom
from kb.facts import Known
from kb.home import Home
from kb.reference import reference
from kb.walk import Standing
from server.household.pages import PACE_WORDS, EndPage, Told
from server.site import Site
from server.web.frame import Frame, phone_link


@dataclass(frozen=True, slots=True)
class Arrival:
    """Where a household has come to: from which start to which end, on which trail, in which home.

    `about` is the article's title and `address` that of its pages.
    """

    about: str
    start: Step
    end: End
    standing: Standing
    home: Home | None
    known: Known
    address: str
    told: tuple[Told, ...]


def end_page(site: Site, here: Arrival, around: Frame, notice: str) -> EndPage:
    """The page of an end."""
    firm, end = site.firm, here.end
    contact = whom(end, firm, site.region, here.standing.facts.get("fuel"))
    return EndPage(
        frame=around,
        about=here.about,
        title=end.title,
        pace=end.pace.value,
        pace_words=PACE_WORDS[end.pace],
        actions=first_aid_lines(end, firm, site.region),
        call_name=contact.name,
        call=phone_link(firm, contact.number) if contact.number else None,
        also_firm=contact.number != firm.phone.number,
        body=end.body,
        passages=site.library.passages(end, here.standing.facts),
        told=here.told,
        reference=call_reference(site, here),
        call_me=f"{here.address}/{here.standing.trail}/call-me" if offers_call(end) else "",
        call_me_hint="Ringing us is quicker." if end.pace in SOON else "You tell us when.",
        sms=_sms(site, here) if end.pace is not Pace.LEAVE else "",
        alert=notice,
    )


def call_reference(site: Site, here: Arrival) -> str:
    """What to read out on the phone, where it is the firm that is rung and there is time for it."""
    if here.end.call is not Call.FIRM or here.end.pace in (Pace.LEAVE, Pace.ADVICE) or here.standing.held:
        # A try that has no place on the walk any more would not be heard in a reference.
        return ""
    return reference(site.library, here.start, here.standing.trail, here.known)


def _sms(site: Site, here: Arrival) -> str:
    """An address that opens a text to the firm with what was tried, for the household to read and send."""
    number = next((phone.number for phone in site.firm.phones if phone.sms), None)
    if number is None:
        return ""
    lines = [f"{here.about}. {here.end.title}."]
    lines += [f"Card {here.home.key}"] if here.home else []
    lines += [f"Reference {reference(site.library, here.start, here.standing.trail, here.known)}"]
    lines += [f"- {each.question} {each.answer}" for each in here.told]
    return site.firm.sms(number, "\n".join(lines)[:1000])
