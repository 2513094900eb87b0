"""Whom each kind of end says to call, in regions that have the number and in those that have not."""

from pathlib import Path

import pytest

from kb.article import Call, End
from kb.contact import Contact, first_aid_lines, number_of, whom
from kb.library import load
from tests.builders import TODAY, article, firm, region

ENDS = "# Ends\n\n## For the household\n\n{{pace=today call={call} emergency=gas-smell}}\n### Call\n\nCall.\n"


def end(call: str) -> End:
    return article("ends", ENDS.format(call=call), "ends").ends[0]


def test_an_ordinary_end_calls_the_firm() -> None:
    assert whom(end("firm"), firm(), region()) == Contact("Any Heating", "01632 960123")


def test_an_emergency_calls_the_number_confirmed_for_this_place() -> None:
    confirmed = [{"kind": "gas", "number": "0800 111 999", "confirmed": TODAY, "by": "gas engineer"}]

    assert whom(end("gas"), firm(emergency=confirmed), region()).number == "0800 111 999"


def test_without_a_confirmed_number_the_regions_own_is_called() -> None:
    assert number_of("emergency", firm(emergency=[]), region()) == "999"


@pytest.mark.parametrize(
    ("fuel", "who"), [("natural-gas", "energy supplier"), ("lpg", "fuel supplier"), ("oil", "fuel supplier")]
)
def test_a_supplier_is_the_fuels_own(fuel: str, who: str) -> None:
    contact = whom(end("supplier"), firm(), region(), fuel)

    assert who in contact.name
    assert contact.number == ""


def test_a_tenants_own_landlord_is_rung_on_a_number_that_only_the_tenant_has() -> None:
    assert "landlord" in whom(end("landlord"), firm(), region()).name
    assert whom(end("landlord"), firm(), region()).number == ""


def test_a_power_cut_is_reported_on_the_regions_number_where_it_has_one() -> None:
    gb = load(Path(__file__).parents[2] / "articles/en").regions["GB"]

    assert whom(end("power-cut"), firm(), gb).number == "105"
    assert whom(end("power-cut"), firm(), region()).number == ""


def test_the_order_of_actions_has_the_numbers_in_it() -> None:
    assert first_aid_lines(end("gas"), firm(), region()) == (("Go outside. Ring 0800 111 999.", ""),)


def test_every_call_of_an_end_leads_to_somebody() -> None:
    for call in Call:
        assert whom(end(call), firm(), region()).name
