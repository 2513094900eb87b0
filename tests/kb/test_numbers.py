import re
from urllib.parse import unquote

import pytest

from kb.numbers import UndialableNumber, dialled, sms, tel

# Outside references: ITU-T E.164 (a plus and at most fifteen digits), RFC 3966 section 3 (the `tel` URI) and
# RFC 5724 section 2.2 (the `sms` URI), their grammars written out as far as these links use them.
E164 = re.compile(r"\+[1-9][0-9]{1,14}")
TEL = re.compile(r"tel:\+[0-9.()-]*[0-9][0-9.()-]*")
SMS = re.compile(r"sms:\+[0-9.()-]*[0-9][0-9.()-]*\?body=(?:[A-Za-z0-9._~-]|%[0-9A-F]{2})*")

WRITTEN = [
    ("01632 960123", "GB", "+441632960123"),
    ("(01632) 960-123", "GB", "+441632960123"),
    ("07700 900123", "GB", "+447700900123"),
    ("020 7946 0999", "GB", "+442079460999"),
    ("0800 111 999", "GB", "+44800111999"),
    ("0800 002 001", "NI", "+44800002001"),
    ("1800 20 50 50", "IE", "+3531800205050"),
    ("+44 1632 960123", "IE", "+441632960123"),
    ("+44 1632 960123", "ZZ", "+441632960123"),
]


@pytest.mark.parametrize(("number", "region", "expected"), WRITTEN)
def test_a_number_is_dialled_in_full_even_if_it_is_kept_for_fiction(number, region, expected):
    assert dialled(number, region) == expected
    assert E164.fullmatch(expected)


@pytest.mark.parametrize(("number", "region", "expected"), WRITTEN)
def test_a_link_that_rings_is_a_global_number_of_rfc_3966(number, region, expected):
    assert tel(number, region) == f"tel:{expected}"
    assert TEL.fullmatch(tel(number, region))


@pytest.mark.parametrize("number", ["999", "112", "105", "18001", "1 1 2"])
def test_a_short_number_stays_bare_so_that_a_phone_knows_it(number):
    assert tel(number, "GB") == f"tel:{number.replace(' ', '')}"


@pytest.mark.parametrize(
    "body",
    [
        "No heat",
        "No heat since 6.\nReset: twice",
        "Gauge 0,4 bar & falling? Yes + no = 100 % #1",
        "Grüße ✓",
        "",
        "a/b?c;d",
    ],
)
def test_a_link_that_begins_a_text_is_one_of_rfc_5724(body):
    link = sms("07700 900123", "GB", body)
    assert SMS.fullmatch(link)
    assert link.startswith("sms:+447700900123?body=")
    assert unquote(link.partition("?body=")[2], errors="strict") == body


@pytest.mark.parametrize(
    ("number", "region"),
    [
        ("960123", "GB"),
        ("01632", "GB"),
        ("01632 960123 4567", "GB"),
        ("01632 960123 ext 4", "GB"),
        ("01632 960123", "ZZ"),
        ("call us", "GB"),
        ("", "GB"),
        ("0" * 10_000, "GB"),
        ("\0" * 9, "GB"),
    ],
)
def test_a_number_that_cannot_be_dialled_is_refused(number, region):
    with pytest.raises(UndialableNumber, match="Expected a phone number that can be dialled"):
        dialled(number, region)
