"""How is a phone number that people read turned into a link that a phone can dial?"""

import re
from functools import lru_cache
from typing import Final
from urllib.parse import quote

import phonenumbers
from phonenumbers import NumberParseException, PhoneNumberFormat, PhoneNumberType, ValidationResult

_DIALLED_IN: Final = {"NI": "GB"}
_SHORT: Final = re.compile(r"[0-9]{2,3}|[1-9][0-9]{3,4}")


class UndialableNumber(ValueError):
    """A number that no phone in the region could dial; whoever wrote it down was not asked to check it."""

    def __init__(self, number: str, region: str) -> None:
        """Name the number and the region it was to be dialled in."""
        super().__init__(
            f"Expected a phone number that can be dialled in {region}, found {number!r}. "
            "Write it as people there dial it, or in full with + and the country's code."
        )


def is_short(number: str) -> bool:
    """Whether a number is one of the few digits that are dialled alone, such as 999."""
    return _SHORT.fullmatch(number.replace(" ", "")) is not None


@lru_cache(maxsize=256)
def dialled(number: str, region: str) -> str:
    """The number as ITU-T E.164 writes it, or its bare digits if it is a short one such as 999.

    It need only be possible, not in use, since numbers reserved for fiction never are.
    A short number has no international form, and a phone knows an emergency number only when it is bare.
    Raises UndialableNumber.
    """
    if is_short(number):
        return number.replace(" ", "")
    country = _DIALLED_IN.get(region, region)
    try:
        parsed = phonenumbers.parse(number, country if country in phonenumbers.SUPPORTED_REGIONS else None)
    except NumberParseException:
        raise UndialableNumber(number, region) from None
    possible = phonenumbers.is_possible_number_with_reason(parsed) == ValidationResult.IS_POSSIBLE
    if not possible or parsed.extension:
        raise UndialableNumber(number, region)
    return phonenumbers.format_number(parsed, PhoneNumberFormat.E164)


def costs_extra(written: str) -> bool:
    """Whether whoever rings a number, written as `dialled` gives it, pays for more than the call."""
    return phonenumbers.number_type(phonenumbers.parse(written)) == PhoneNumberType.PREMIUM_RATE


def is_whole(written: str) -> bool:
    """Whether a number, written as `dialled` gives it, seems to have all its digits.

    One that is in use has; one that nobody knows to be in use, such as those kept for fiction, has if it is as long
    as numbers there are.
    """
    parsed = phonenumbers.parse(written)
    if phonenumbers.is_valid_number(parsed):
        return True
    country = phonenumbers.region_code_for_country_code(parsed.country_code or 0)
    kinds = (PhoneNumberType.FIXED_LINE, PhoneNumberType.MOBILE)
    examples = [phonenumbers.example_number_for_type(country, kind) for kind in kinds]
    lengths = {len(phonenumbers.national_significant_number(each)) for each in examples if each}
    return len(phonenumbers.national_significant_number(parsed)) in lengths


def shown(number: str, region: str) -> str:
    """A number in E.164 as people in the region write it, if it is dialled the same from that."""
    country = _DIALLED_IN.get(region, region)
    try:
        parsed = phonenumbers.parse(number)
        at_home = phonenumbers.format_number(parsed, PhoneNumberFormat.NATIONAL)
        if country in phonenumbers.SUPPORTED_REGIONS and dialled(at_home, region) == number:
            return at_home
        return phonenumbers.format_number(parsed, PhoneNumberFormat.INTERNATIONAL)
    except (NumberParseException, UndialableNumber):
        return number


def tel(number: str, region: str) -> str:
    """The link that rings a number (RFC 3966)."""
    return f"tel:{dialled(number, region)}"


def to_ring(number: str, region: str) -> tuple[str, str] | None:
    """A number as people in the region write it, with the link that rings it; None for what cannot be dialled."""
    try:
        return shown(dialled(number, region), region), tel(number, region)
    except UndialableNumber:
        return None


def sms(number: str, region: str, body: str) -> str:
    """The link that begins a text to a number with these words (RFC 5724)."""
    return f"sms:{dialled(number, region)}?body={quote(body, safe='')}"
