import pytest

from kb.card.faults import faults_of
from kb.facts import Known
from tests.kb.card.cards import SEALED, VENTED, library

GENERAL = "Press reset twice at most, five minutes apart."


def lines_of(*lines, facts=SEALED, limits=None):
    found = faults_of(library(("trouble", 1, lines)), Known(facts, limits=limits or {"reset": 2}))
    return found[0].lines if found else ()


def test_the_four_that_people_ring_about_most_stand_there_in_that_order():
    numbers = (3, 1, 5, 2, 4)
    found = faults_of(library(*((f"fault-{n}", n, ("Look.", "Ring.")) for n in numbers)), Known(SEALED))
    assert [fault.article for fault in found] == ["fault-1", "fault-2", "fault-3", "fault-4"]


def test_an_article_without_lines_for_the_card_is_passed_over():
    found = faults_of(library(("bare", 1, ()), ("told", 2, ("Look.", "Ring."))), Known(SEALED))
    assert [fault.article for fault in found] == ["told"]


def test_an_emergency_is_left_to_the_front():
    emergencies = library(("gas-smell", 1, ("Go out.", "Ring.")), emergency="gas-smell")
    assert faults_of(emergencies, Known(SEALED)) == ()


def test_an_article_that_does_not_suit_the_home_is_passed_over():
    sealed_only = library(("low", 1, ("Look.", "Ring.")), applies="{system: [sealed]}")
    assert faults_of(sealed_only, Known(SEALED))
    assert not faults_of(sealed_only, Known(VENTED))


def test_at_most_three_lines_are_taken():
    assert lines_of("One.", "Two.", "Three.", "Four.") == ("One.", "Two.", "Three.")


@pytest.mark.parametrize("line", ["Top it up once.", "Top up once.", "The needle is low.", "Fill at the hose."])
def test_a_vented_home_reads_nothing_of_gauges_and_filling(line):
    assert line in lines_of(line, "Look.", "Ring.")
    assert lines_of(line, "Look.", "Ring.", facts=VENTED) == ("Look.", "Ring.")


def test_a_fault_that_is_about_the_gauge_is_not_on_a_vented_homes_card():
    found = faults_of(library(("heating-pressure", 1, ("Look.", "Ring."))), Known(VENTED))
    assert found == ()


def test_a_home_without_a_meter_reads_nothing_of_one():
    assert lines_of("Look at the meter.", "Look.", "Ring.", facts={**SEALED, "meter": "none"}) == ("Look.", "Ring.")


@pytest.mark.parametrize("line", ["Credit ran out?", "Press the meter's own button once.", "The meter shuts again?"])
def test_a_home_that_pays_by_bill_reads_nothing_of_credit(line):
    assert line in lines_of(line, "Look.", "Ring.", facts=SEALED)
    assert lines_of(line, "Look.", "Ring.", facts={**SEALED, "meter": "credit"}) == ("Look.", "Ring.")


@pytest.mark.parametrize("line", ["The waste pipe outside may be frozen.", "Warm it twice at most."])
def test_a_home_whose_waste_pipe_stays_indoors_is_not_sent_out_to_thaw_it(line):
    assert line in lines_of(line, "Look.", "Ring.", facts={**SEALED, "condensate": "outside"})
    assert lines_of(line, "Look.", "Ring.", facts={**SEALED, "condensate": "inside"}) == ("Look.", "Ring.")


def test_fewer_than_two_true_lines_are_none():
    assert lines_of("Top up once.", "Ring.", facts=VENTED) == ()


@pytest.mark.parametrize("limits", [{"reset": 1}, {"reset": 0}])
def test_no_line_allows_a_reset_more_often_than_the_appliance_does(limits):
    assert lines_of("Reset it twice.", "Look.", "Ring.", limits=limits) == ("Look.", "Ring.")


def test_a_line_that_forbids_a_reset_stays_whatever_the_limit():
    assert "Bang? Do not reset." in lines_of("Bang? Do not reset.", "Ring.", limits={"reset": 0})


@pytest.mark.parametrize(
    ("action", "line"),
    [
        ("top-up", "Top up once."),
        ("thaw", "From the ground only: warm it."),
        ("breaker", "Fuse box switch down? Push it on once."),
        ("meter-restore", "Press the meter's own button once."),
        ("water-release", "Let some water out."),
        ("relight", "Light the pilot."),
    ],
)
def test_what_this_appliance_forbids_altogether_no_line_allows(action, line):
    assert line in lines_of(line, "Look.", "Ring.")
    assert line not in lines_of(line, "Look.", "Ring.", limits={action: 0})


def test_the_general_rule_about_resets_gives_way_to_the_ranges_own():
    assert lines_of("Look.", GENERAL, "Ring.") == ("Look.", "Ring.")
    assert lines_of(GENERAL, "Ring.") == (GENERAL, "Ring.")


def test_a_line_with_a_rule_for_oil_stays_for_a_home_on_oil():
    line = "Gas: press reset twice. Oil: once only."
    assert line in lines_of(line, "Ring.", facts={**SEALED, "fuel": "oil"}, limits={"reset": 1})
    assert line not in lines_of(line, "Look.", "Ring.", limits={"reset": 1})
