from dataclasses import fields
from datetime import date

import pytest

from kb.card import Card, card_of
from kb.facts import GaugeMarks, Known
from kb.library import build
from kb.notation.ranges import read_range
from tests.builders import article, firm
from tests.kb.card.cards import KEY, RANGE, SEALED, VENTED, card, family, fault, gb, home, library, refusals


def test_a_card_says_whom_to_call_with_the_first_phone_large():
    found = card().firm
    assert (found.name, found.phone, found.also) == ("Any Heating", "01632 960123", ("Mobile: 07700 900123",))
    assert found.hours == ("Monday to Friday 08:00–17:30",)


def test_a_first_phone_that_takes_texts_is_named_for_them():
    only = [{"number": "07700 900123", "what": "mobile", "sms": True}]
    assert card(firm_=firm(phones=only)).firm.also == ("Texts: 07700 900123",)


def test_the_page_is_the_sites_address_with_the_key_typed_without_its_scheme():
    found = card()
    assert found.page == f"https://heating.example/h/{KEY}"
    assert "".join(found.page_typed) == f"heating.example/h/{KEY}"


def test_a_plain_address_keeps_its_scheme_so_that_a_browser_finds_it():
    assert card(firm_=firm(site="http://127.0.0.1:8480")).page_typed[0] == "http://127.0.0.1:8480/h/"


def test_a_sealed_home_is_told_what_to_aim_for():
    found = card(home_=home(marks=GaugeMarks(0.9, 1.4, 2.0)))
    assert found.marks == GaugeMarks(0.9, 1.4, 2.0)
    assert found.gauge.title == "Aim for 1.4 bar with the radiators cold"


def test_a_vented_home_is_told_that_there_is_no_gauge_to_fill_by():
    found = card(home_=home(VENTED))
    assert found.marks is None
    assert found.gauge.title == "No pressure gauge here"
    assert "Do not look for a tap to fill it." in found.gauge.lines


def test_the_reset_rule_is_the_ranges_own_steps_the_count_and_when_never():
    assert card().reset.lines == (
        "Hold the button marked R for five seconds. Wait for two minutes.",
        "At most twice, five minutes apart.",
        "Never with a smell, an alarm, soot, a bang, a drip or ice.",
    )


def test_steps_that_are_no_list_are_the_first_paragraph_and_no_caution():
    plain = RANGE.format(reset=2).replace("1. Hold", "> Never hold it wet.\n\nHold").replace("\n2. Wait", ". Wait")
    said, _ = read_range("anymake.md", plain.replace("Only when the sign shows.\n\n", ""))
    assert card(range_=said).reset.lines[0] == "Hold the button marked R for five seconds. Wait for two minutes."


@pytest.mark.parametrize(("of_range", "said"), [(1, "Once only."), (2, "At most twice"), (3, "At most twice")])
def test_no_card_allows_more_resets_than_the_range_or_the_trade_does(of_range, said):
    assert card(range_=family(of_range)).reset.lines[1].startswith(said)


def test_an_oil_boiler_is_reset_once_whatever_its_range_says():
    assert card(home_=home({**SEALED, "fuel": "oil"})).reset.lines[1] == "Once only."


def test_a_home_with_a_stricter_limit_than_its_range_keeps_it():
    assert card(home_=home(known=Known(SEALED, limits={"reset": 1}))).reset.lines[1] == "Once only."


def test_an_appliance_that_only_an_engineer_resets_has_no_steps_on_the_card():
    reset = card(range_=family(0)).reset
    assert reset.title == "Do not reset the boiler"
    assert not any("Hold the button" in line for line in reset.lines)


def test_what_never_to_do_are_whole_sentences_that_cannot_be_read_as_orders():
    lines = card().never.lines
    assert 4 <= len(lines) <= 5
    assert all(line.startswith("Never ") for line in lines)


def test_a_home_on_oil_is_told_about_oil():
    assert any("oil" in line for line in card(home_=home({**SEALED, "fuel": "oil"})).never.lines)


def test_places_stand_in_the_order_of_need_and_the_filling_loop_not_at_all():
    assert [spot.id for spot in card().places] == ["gas-valve", "stop-tap", "switch", "condensate-end"]


@pytest.mark.parametrize(("due", "line"), [(date(2027, 6, 14), "14 June 2027"), (None, "ask us")])
def test_the_next_service_is_named(due, line):
    assert card(home_=home(next_service=due)).foot[1] == f"Next service: {line}"


def test_the_appliances_own_instructions_come_first():
    assert card().foot[0] == "The appliance's own instructions come first."


@pytest.mark.parametrize(("demo", "said"), [(True, "Invented"), (False, "")])
def test_only_a_demo_says_so(demo, said):
    assert card(firm_=firm(demo=demo)).demo.startswith(said)
    assert bool(card(firm_=firm(demo=demo)).demo) is demo


def test_what_stands_under_an_engineers_heading_never_reaches_the_card():
    text = fault("trouble", 1, "Look.", "Ring.") + "\n## For the engineer\n\n### On the card\n\nSecret reading 1.7.\n"
    engineers = build([article("trouble", text, category="trouble", often="1")])
    assert [each.lines for each in card(library_=engineers).faults] == [("Look.", "Ring.")]
    assert "Secret" not in repr(card(library_=engineers))


def test_a_card_has_no_field_about_people():
    assert not {field.name for field in fields(Card)} & {"name", "address", "note", "notes", "people", "tenant"}


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"key": ""}, "home.key"),
        ({"key": "AAAAA-AAAAA-AAAA9"}, "home.key"),
        ({"key": KEY.lower()}, "home.key"),
        ({"range": "other"}, "home.range"),
        ({"known": Known({})}, "home.facts.system"),
        ({"places": {"switch": "here\u202ethere"}}, "home.places.switch"),
        ({"appliance": "Any\x00make"}, "home.appliance"),
    ],
)
def test_a_home_that_cannot_have_a_card_is_refused_by_field(changed, field):
    assert list(refusals(home_=home(**changed))) == [field]


def test_a_site_whose_address_no_phone_could_read_is_refused():
    site = f"https://{'.'.join(['long-part-of-a-name'] * 7)}.example"
    assert "QR code" in refusals(firm_=firm(site=site))["firm.site"]


def test_a_library_without_lines_for_the_card_is_refused():
    assert "No fault has lines" in refusals(library_=library(("bare", 1, ())))["articles"]


def test_every_reason_is_told_at_once_with_what_to_do():
    told = refusals(home_=home(key="", range="other"), firm_=firm(emergency=[]), library_=library(("bare", 1, ())))
    assert set(told) == {"home.key", "home.range", "firm.emergency.gas", "firm.emergency.emergency", "articles"}


def test_without_a_given_day_a_confirmation_far_ahead_is_still_refused():
    confirmed = [{**each.model_dump(), "confirmed": date(2999, 1, 1)} for each in firm().emergency]
    found = card_of(home(), family(), firm(emergency=confirmed), gb(), library())
    assert [reason.field for reason in found.reasons] == ["firm.emergency.gas", "firm.emergency.emergency"]


def test_a_gas_boiler_open_to_the_room_is_not_reset_by_its_household():
    # Common practice: an open flue may have spilled, so its fumes come first and there is no unguided reset.
    found = card(home_=home({**SEALED, "flue": "open"}))

    assert found.reset.title == "Do not reset the boiler"
