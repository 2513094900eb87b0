from dataclasses import replace
from datetime import UTC, date, datetime

from kb.facts import FACTS, TRIED, Known
from kb.home import PLACES
from server.seen import farewell, sheet
from server.store.register import Did, Entry, Erased, Paper, Printed, Seen
from tests.registers import FIRST, record

PAPER = Paper("gas-safety-record", date(2026, 6, 1), date(2028, 6, 1), "Bram Oakes", "Flat 2, 14 Mill Lane")
NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)


def told(seen: Seen) -> dict[str, str]:
    return {section.title: "\n".join(section.lines) for section in sheet(seen)}


def test_a_need_is_told_in_plain_words_with_its_consent_and_when_it_is_asked_again():
    said = told(Seen(record(), (), (), ()))["Anna Whitfield"]
    assert "Is over 65 (agreed to on 5 January 2026, to be asked again by 5 January 2027)" in said
    assert "Needs power for equipment (agreed to on 1 March 2025, to be asked again by 1 March 2027)" in said


def test_facts_and_places_are_told_as_people_say_them():
    said = told(Seen(record(), (), (), ()))["The home"]
    assert "Tenure: rented" in said
    assert "The tap that turns the water off: under the sink" in said
    assert "Resets: at most 1" in said


def test_every_place_fact_and_limit_reads_as_a_line_of_its_own():
    """Read aloud, each line is what it is about, a pause, and what is so; nothing is asked and nothing said twice."""
    facts = {fact: next(iter(values)) for fact, values in FACTS.items()} | dict.fromkeys(TRIED.values(), "3")
    known = Known(facts, limits=dict.fromkeys(TRIED, 0))
    said = told(Seen(replace(record(), known=known, places=dict.fromkeys(PLACES, "here")), (), (), ()))["The home"]
    assert "Where the plastic drain pipe ends: here" in said
    assert "The valve that turns the gas off: here" in said
    assert "Where water is let into the heating: here" in said
    assert "Resets tried: 3 or more" in said
    assert "Top-ups: not at all" in said
    for line in said.splitlines():
        subject, _, rest = line.partition(": ")
        assert subject[0].isupper()
        assert rest
        assert subject.lower().count("where") <= 1


def test_who_looked_is_told_by_what_and_when_and_not_by_name():
    said = told(Seen(record(), (), (), (Entry(NOON, "desk.jo", Did.READ, ("address",)),)))["Who looked, and when"]
    assert said == "25 November 2026, 12:00 UTC: it was read (address)"


def test_fields_of_the_trail_are_told_in_plain_words():
    fields = ("people.name", "people.needs", "marks", "card.a6", "gas-safety-record")
    said = told(Seen(record(), (), (), (Entry(NOON, "x", Did.CHANGED, fields),)))["Who looked, and when"]
    assert said.endswith("(names, needs, gauge marks, card A6, gas safety record)")


def test_every_trace_has_its_words():
    for did in Did:
        assert told(Seen(record(), (), (), (Entry(NOON, "x", did, ("address",)),)))["Who looked, and when"]


def test_what_is_not_held_has_no_heading():
    assert "Cards printed" not in told(Seen(record(), (), (), ()))
    assert told(Seen(record(), (Printed(FIRST, "a6", "x", NOON),), (), ()))["Cards printed"] == "A6, 25 November 2026"


def test_what_the_law_keeps_is_named_with_its_rule():
    sections = farewell(Erased(("people.name",), (PAPER,), ("The address stays.",)))
    assert [section.title for section in sections] == ["Erased", "Kept because the law says so", "Left"]
    [kept] = sections[1].lines
    assert kept.startswith(
        "Record of a landlord's gas safety check for Bram Oakes of 1 June 2026, kept until 1 June 2028"
    )
    assert "regulation 36(3)(c)" in kept


def test_nothing_kept_is_no_section():
    assert [section.title for section in farewell(Erased(("people.name",), (), ()))] == ["Erased"]
