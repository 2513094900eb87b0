"""Small libraries, firms and homes for tests, built from the markdown that an author would write."""

from datetime import date
from typing import Final

from kb.article import Article
from kb.firm import Firm
from kb.library import Library, build
from kb.notation import read_article
from kb.region import ORDERS, Region

TODAY: Final = date(2026, 11, 25)

DANGER: Final = """
# Before anything else

## For the household

### Can you smell gas?

- [Yes](ends.md#get-out)
- [No](#is-an-alarm-sounding)

### Is an alarm sounding?

- [Yes](ends.md#get-out)
- [No](ends.md#carry-on)
"""

TRIED: Final = """
# What was tried before

## For the household

{fact=resets-tried}
### How many times was it reset before?

- [None](ends.md#carry-on){is=0}
- [Once](ends.md#carry-on){is=1}
- [Twice](ends.md#carry-on){is=2}
- [More, or I do not know](ends.md#carry-on){is=3}
"""

ENDS: Final = """
# Where a path ends

## For the household

{pace=leave call=gas emergency=gas-smell}
### Get out

Go outside.

{pace=today call=firm}
### Call us

We come today.

{pace=advice call=firm}
### It works

Keep an eye on it.

{pace=advice call=firm}
### Carry on

Go on.

## For the engineer

{pace=routine call=firm}
### Job closed

Done.
"""


def header(kind: str, title: str, **fields: str) -> str:
    """A header with what every article must have."""
    more = "".join(f"{name.replace('_', '-')}: {value}\n" for name, value in fields.items())
    return f"---\ntitle: {title}\nkind: {kind}\nreviewed: {TODAY}\nsources: [common practice]\n{more}---\n"


def article(id: str, text: str, kind: str = "fault", **fields: str) -> Article:
    """An article from its text below the header, whose title is the text's first heading."""
    title = text.strip().splitlines()[0].removeprefix("# ")
    read, findings = read_article(f"{id}.md", header(kind, title, **fields) + text)
    assert read is not None, findings
    assert not findings, [str(finding) for finding in findings]
    return read


def library(**articles: str) -> Library:
    """A library with danger questions, the question about resets, ends, and faults by name and text."""
    faults = [article(id.replace("_", "-"), text, category=id.replace("_", "-")) for id, text in articles.items()]
    shared = [
        article("danger", DANGER, "danger"),
        article("tried", TRIED, "shared"),
        article("ends", ENDS, "ends"),
    ]
    return build([*shared, *faults], [region()])


def region(code: str = "GB") -> Region:
    """A region with two numbers and one line for each emergency."""
    checked = {"source": "common practice", "checked": TODAY}
    action = [{"do": "Go outside. Ring {gas}.", **checked}]
    return Region.model_validate(
        {
            "code": code,
            "name": "Somewhere",
            "language": "en-GB",
            "reviewed": TODAY,
            "numbers": {
                "emergency": {"number": "999", "name": "emergency services", **checked},
                "gas": {"number": "0800 111 999", "name": "gas emergency line", **checked},
            },
            "orders": dict.fromkeys(ORDERS, action),
        }
    )


def firm(**changes: object) -> Firm:
    """A firm with one office and one mobile number, open on weekdays."""
    day = ["08:00-17:30"]
    fields: dict[str, object] = {
        "name": "Any Heating",
        "town": "Anytown",
        "region": "GB",
        "phones": [
            {"number": "01632 960123", "what": "office"},
            {"number": "07700 900123", "what": "mobile", "sms": True},
        ],
        "hours": dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), day),
        "zone": "Europe/London",
        "registration": "register number 000000",
        "emergency": [
            {"kind": "gas", "number": "0800 111 999", "confirmed": TODAY, "by": "gas engineer"},
            {"kind": "emergency", "number": "999", "confirmed": TODAY, "by": "gas engineer"},
        ],
        "site": "https://heating.example",
        "serves": ["natural-gas"],
    }
    return Firm.model_validate({**fields, **changes})
