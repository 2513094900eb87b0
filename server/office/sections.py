"""Which forms has a home, and what stands in each?"""

from collections.abc import Iterator, Mapping
from typing import Final

from kb.facts import FACTS, LIMIT_NAMES, TRIED
from kb.home import PLACES
from kb.register import NEEDS
from server.office.forms import (
    ALARM_OPTIONS,
    FACT_HINTS,
    FACT_OPTIONS,
    FACT_WORDS,
    FUEL_OPTIONS,
    GONE,
    KIND_OPTIONS,
    NEED_WORDS,
    PLACE_WORDS,
    ROLE_OPTIONS,
    Field,
    Form,
    Group,
    Values,
    choices,
)
from server.site import Site

_LINES: Final = 3
_SPARE_PHONES: Final = 2
_SPARE_ALARMS: Final = 2


def sections(site: Site) -> Mapping[str, Form]:
    """The forms of a home by their names, but for those of its people."""
    ranges = choices({id: family.name for id, family in site.ranges.items()}, "none of our ranges")
    forms = (
        Form("address", "Address", ("address",), _address),
        Form("appliances", "Appliances", ("appliances",), lambda values: _appliances(values, ranges), _FIRST),
        Form("facts", "What is known", ("facts",), _facts),
        Form("marks", "Gauge marks and limits", ("marks", "limits"), _marks),
        Form("places", "Where things are", ("places",), _places, "In plain words; the household reads them too."),
        Form("alarms", "Alarms", ("alarms",), _alarms),
    )
    return {form.name: form for form in forms}


_FIRST: Final = "The first is the one on the card."


def person_form(title: str) -> Form:
    """The form of one person, who stands in it as the first."""
    return Form("people", title, ("people",), _person, "Note the need, never the reason for it.")


def new_home_form(site: Site) -> Form:
    """What a new home begins with; everything else is filled in on its page."""
    ranges = choices({id: family.name for id, family in site.ranges.items()}, "none of our ranges")

    def layout(values: Values) -> Iterator[Group]:
        yield from _address(values)
        yield Group("Who lives there", tuple(_name_and_phones(values)))
        yield Group("The appliance on the card", tuple(_appliance("appliances[0]", ranges)))
        yield from _facts(values)

    paths = ("address", "people", "appliances", "facts")
    return Form("new", "A new home", paths, layout, "The key is made when you save it.")


def _address(values: Values) -> Iterator[Group]:
    lines = max(_LINES, _count(values, "address.lines") + 1)
    fields = [Field(f"address.lines[{n}]", "House and street" if n == 0 else f"Line {n + 1}") for n in range(lines)]
    yield Group(
        "Address",
        (*fields, Field("address.town", "Town"), Field("address.postcode", "Postcode", hint="In any case and spacing")),
    )


def _facts(values: Values) -> Iterator[Group]:
    fields = (
        Field(f"facts.{fact}", FACT_WORDS[fact], "choice", options=FACT_OPTIONS[fact], hint=FACT_HINTS.get(fact, ""))
        for fact in FACTS
    )
    yield Group("What is known", tuple(fields))


def _marks(values: Values) -> Iterator[Group]:
    marks = (("low", "Low mark"), ("aim", "Where it should stand"), ("high", "High mark"))
    yield Group("Gauge, in bar, read cold", tuple(Field(f"marks.{name}", words, "figure") for name, words in marks))
    hint = "Only where the instructions allow less than usual"
    fields = (
        Field(f"limits.{act}", LIMIT_NAMES[act], "figure", hint=hint if n == 0 else "") for n, act in enumerate(TRIED)
    )
    yield Group("The appliance's own limits: at most", tuple(fields))


def _places(values: Values) -> Iterator[Group]:
    yield Group("Where things are", tuple(Field(f"places.{place}", PLACE_WORDS[place]) for place in PLACES))


def _appliances(values: Values, ranges: tuple[tuple[str, str], ...]) -> Iterator[Group]:
    there = _count(values, "appliances")
    for n in range(there + 1):
        at = f"appliances[{n}]"
        out = () if n == there else (Field(f"{at}.{GONE}", "Take this appliance out", "tick", value="yes"),)
        legend = "Another appliance" if n == there else f"Appliance {n + 1}"
        yield Group(legend, (*_appliance(at, ranges), *out), f"appliance-{n + 1}")


def _appliance(at: str, ranges: tuple[tuple[str, str], ...]) -> Iterator[Field]:
    yield Field(f"{at}.plate", "Words on the plate")
    yield Field(f"{at}.range", "Range", "choice", options=ranges)
    yield Field(f"{at}.kind", "Kind", "choice", options=KIND_OPTIONS)
    yield Field(f"{at}.fuel", "Runs on", "choice", options=FUEL_OPTIONS)
    yield Field(f"{at}.serial", "Serial number")
    yield Field(f"{at}.fitted", "Fitted", "day")
    yield Field(f"{at}.warranty_ends", "Warranty ends", "day")
    yield Field(f"{at}.serviced", "Last service", "day")
    yield Field(f"{at}.next_service", "Next service", "day")


def _alarms(values: Values) -> Iterator[Group]:
    there = _count(values, "alarms")
    for n in range(there + _SPARE_ALARMS):
        at = f"alarms[{n}]"
        fields = (
            Field(f"{at}.kind", "Warns of", "choice", options=ALARM_OPTIONS),
            Field(f"{at}.place", "Where it hangs"),
            Field(f"{at}.ends", "Replace by", "day", hint="The day printed on it"),
        )
        out = (Field(f"{at}.{GONE}", "Take this alarm out", "tick", value="yes"),) if n < there else ()
        yield Group(f"Alarm {n + 1}" if n < there else f"Another alarm ({n + 1})", (*fields, *out), f"alarm-{n + 1}")


def _person(values: Values) -> Iterator[Group]:
    yield Group("Who", tuple(_name_and_phones(values)))
    for n, kind in enumerate(NEEDS):
        at = f"people[0].needs[{n}]"
        yield Group(
            NEED_WORDS[kind],
            (
                Field(f"{at}.kind", "Has this need", "tick", value=kind),
                Field(f"{at}.consented", "Agreed to a note on", "day"),
                Field(f"{at}.reviewed", "Asked again on", "day"),
            ),
            f"need-{kind}",
        )


def _name_and_phones(values: Values) -> Iterator[Field]:
    yield Field("people[0].name", "Name")
    yield Field("people[0].role", "The person", "choice", options=ROLE_OPTIONS)
    for n in range(_count(values, "people[0].phones") + _SPARE_PHONES):
        yield Field(
            f"people[0].phones[{n}]", f"Phone {n + 1}", "phone", hint="In any way it is written" if n == 0 else ""
        )


def _count(values: Values, path: str) -> int:
    """How many items of a list have something in them, up to the last."""
    numbers = [
        int(name.removeprefix(f"{path}[").partition("]")[0])
        for name, words in values.items()
        if words and name.startswith(f"{path}[")
    ]
    return max(numbers, default=-1) + 1
