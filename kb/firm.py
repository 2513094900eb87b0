"""Who is the firm, when and how is it reached, and what has it confirmed for its place?"""

import re
import tomllib
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from itertools import pairwise
from typing import Annotated, Any, Final, Literal, TypeAlias, TypeVar
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    StringConstraints,
    ValidationError,
    ValidationInfo,
    field_validator,
)
from pydantic_core import ErrorDetails

from kb import hours, numbers
from kb.article import Pace
from kb.colour import readable
from kb.findings import Finding, Place, in_order
from kb.hours import Opening, Weekday
from kb.logo import beside

Words: TypeAlias = Annotated[str, StringConstraints(strip_whitespace=True, min_length=2, max_length=120)]

Item = TypeVar("Item")

_REGION: Final = re.compile(r"^[A-Z]{2}$")
_OWN_MACHINE: Final = ("127.0.0.1", "localhost", "::1")
_REMEDY: Final = "Mend it; the demo's firm shows every field."


def _opening(written: object) -> Opening:
    return Opening.read(written if isinstance(written, str) else repr(written))


def _one_after_another(openings: tuple[Opening, ...]) -> tuple[Opening, ...]:
    ordered = tuple(sorted(openings))
    for earlier, later in pairwise(ordered):
        if later.opens < earlier.closes:
            raise ValueError(f"{earlier} and {later} overlap")
    return ordered


def _at_least_one(items: tuple[Item, ...]) -> tuple[Item, ...]:
    if not items:
        raise ValueError("expected at least one")
    return items


def _zone(name: str) -> str:
    try:
        ZoneInfo(name)
    except (KeyError, ValueError, OSError):
        raise ValueError(f"{name!r} is no time zone; expected a name like Europe/London") from None
    return name


def _base_address(written: str) -> str:
    site = written.rstrip("/")
    try:
        parts = urlsplit(site)
        own_machine = parts.hostname in _OWN_MACHINE
        plain = site == f"{parts.scheme}://{parts.netloc}" and "@" not in parts.netloc and parts.port != 0
    except ValueError:
        plain = own_machine = False
        parts = urlsplit("")
    if not plain or not parts.hostname or parts.scheme not in ("https", "http"):
        raise ValueError(f"expected the site's address alone, like https://example.org, found {written!r}")
    if parts.scheme == "http" and not own_machine:
        raise ValueError(f"a home's key may not travel in the open: write https, not {written!r}")
    return site


def _dialable(number: str, info: ValidationInfo) -> str:
    """Hold a number against the firm's region, if that could be read."""
    if info.context and info.context["region"]:
        numbers.dialled(number, info.context["region"])
    return number


def _not_short(number: str) -> str:
    if numbers.is_short(number):
        raise ValueError(f"expected a whole phone number, found {number!r}")
    return number


DayHours: TypeAlias = Annotated[
    tuple[Annotated[Opening, BeforeValidator(_opening)], ...], AfterValidator(_one_after_another)
]
DialledNumber: TypeAlias = Annotated[Words, AfterValidator(_dialable)]


class Part(BaseModel):
    """What every part of the firm's file shares: it cannot be changed, and has no unknown fields."""

    model_config = ConfigDict(extra="forbid", frozen=True)


class Phone(Part):
    """A number of the firm's; `sms` says whether somebody reads texts to it."""

    number: Annotated[DialledNumber, AfterValidator(_not_short)]
    what: Literal["office", "out-of-hours", "mobile"] = "office"
    sms: bool = False


class Confirmed(Part):
    """An emergency number that somebody in this role confirmed for this place on this day."""

    kind: Literal["gas", "emergency"]
    number: DialledNumber
    confirmed: date
    by: Words


class Firm(Part):
    """The firm that looks after the homes.

    `region` is the code of a region's profile, `registration` what its register calls it, with its number,
    `site` the address that keys are printed behind, `answers_within` how many minutes of its opening hours it may
    take to call somebody back, for each pace for which it promises that.
    `colour` and `logo` are how its cards show that they are the firm's; the logo is a file beside the firm's own.
    """

    name: Words
    town: Words
    region: Annotated[str, StringConstraints(pattern=_REGION)]
    phones: Annotated[tuple[Phone, ...], AfterValidator(_at_least_one)]
    hours: Mapping[Weekday, DayHours]
    answers_within: Mapping[Pace, Annotated[int, Field(ge=15, le=6000)]] = {}
    zone: Annotated[str, AfterValidator(_zone)]
    registration: Words
    emergency: tuple[Confirmed, ...] = ()
    site: Annotated[str, AfterValidator(_base_address)]
    serves: Annotated[tuple[Literal["natural-gas", "lpg", "oil", "unvented"], ...], AfterValidator(_at_least_one)]
    demo: bool = False
    colour: Annotated[str, AfterValidator(readable)] | None = None
    logo: Annotated[str, AfterValidator(beside)] | None = None
    language: Annotated[str, StringConstraints(pattern=r"^[a-z]{2}(-[A-Z]{2})?$")] = "en"

    @field_validator("emergency")
    @classmethod
    def _one_of_a_kind(cls, emergency: tuple[Confirmed, ...]) -> tuple[Confirmed, ...]:
        kinds = [confirmed.kind for confirmed in emergency]
        if len(kinds) != len(set(kinds)):
            raise ValueError("the same kind is confirmed twice; keep the one that holds")
        return emergency

    @property
    def phone(self) -> Phone:
        """The number to ring first."""
        return self.phones[0]

    @property
    def clock(self) -> ZoneInfo:
        """The zone of the clock on the firm's wall."""
        return ZoneInfo(self.zone)

    def confirmed(self, kind: str) -> Confirmed | None:
        """The emergency number of a kind, if somebody confirmed it for this place."""
        return next((confirmed for confirmed in self.emergency if confirmed.kind == kind), None)

    def is_open(self, at: datetime) -> bool:
        """Whether the firm is open at this moment."""
        return hours.is_open(self.hours, self.clock, at)

    def opens_next(self, at: datetime) -> datetime | None:
        """When the firm opens next after this moment, in its own zone, or None if it never does."""
        return hours.opens_next(self.hours, self.clock, at)

    def tel(self, number: str) -> str:
        """The link that rings a number from the firm's region (RFC 3966)."""
        return numbers.tel(number, self.region)

    def sms(self, number: str, body: str) -> str:
        """The link that begins a text to a number from the firm's region (RFC 5724)."""
        return numbers.sms(number, self.region, body)


def read_firm(file: str, text: str) -> tuple[Firm | None, tuple[Finding, ...]]:
    """Read the firm's file; every field that is missing or wrong is a finding, all of them at once."""
    try:
        fields = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        at = re.search(r"at line (\d+)", str(error))
        line = int(at[1]) if at else max(1, len(text.splitlines()))
        return None, (Finding(Place(file, line), "firm", "The file is not readable TOML here.", _REMEDY),)
    region = fields.get("region")
    known = region if isinstance(region, str) and _REGION.fullmatch(region) else None
    try:
        return Firm.model_validate(fields, context={"region": known}), ()
    except ValidationError as error:
        found = (_finding(file, text, wrong) for wrong in error.errors(include_url=False))
        return None, in_order(found)


def _finding(file: str, text: str, wrong: ErrorDetails) -> Finding:
    name = ".".join(str(part + 1) if isinstance(part, int) else part for part in wrong["loc"])
    place = Place(file, _line(text, wrong["loc"]))
    return Finding(place, "firm", f"The field {name!r} {_reason(wrong)}.", _REMEDY)


def _reason(wrong: ErrorDetails) -> str:
    match wrong["type"]:
        case "missing":
            return "is missing"
        case "extra_forbidden":
            return "is not a field of the firm's file"
        case "value_error":
            return f"is wrong: {wrong['msg'].removeprefix('Value error, ').rstrip('.')}"
        case _:
            return f"is {_quoted(wrong['input'])}: {wrong['msg'][:1].lower()}{wrong['msg'][1:].rstrip('.')}"


def _quoted(value: Any) -> str:
    return repr(value) if len(repr(value)) <= 60 else f"{repr(value)[:57]}..."


def _line(text: str, where: Sequence[int | str]) -> int:
    """The line that a field of the file stands on, as near as its headings and names tell."""
    line = 0
    lines = text.splitlines()
    for part in where:
        if isinstance(part, str):
            line = next((n for n, words in enumerate(lines[line:], line + 1) if _names(words, part)), line)
        else:
            for _ in range(part):
                heading = lines[line - 1].strip() if line else ""
                line = next((n for n, words in enumerate(lines[line:], line + 1) if words.strip() == heading), line)
    return max(1, line)


def _names(words: str, field: str) -> bool:
    return re.match(rf"\s*(?:\[+\s*)?{re.escape(field)}\s*(?:=|\])", words) is not None
