from datetime import date

import pytest

from kb.register import KEPT_BY_LAW, Mistake, Need, folded, kept_until, read_phone, read_postcode, review_due

DAY = date(2026, 11, 25)


# Numbers reserved for fiction (Ofcom: 01632 960000-960999, 07700 900000-900999, 020 7946 0000-0999).
@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("01632 960123", "+441632960123"),
        ("(01632) 960-123", "+441632960123"),
        ("+44 (0)1632 960123", "+441632960123"),
        ("0044 1632 960 123", "+441632960123"),
        ("07700900999", "+447700900999"),
        ("020 7946 0018", "+442079460018"),
    ],
)
def test_a_number_reserved_for_fiction_is_read_however_it_is_written(written, read):
    assert read_phone(written, "GB") == read


def test_a_number_is_read_as_its_country_writes_it():
    assert read_phone("01632 960123", "NI") == "+441632960123"
    assert read_phone("+441632960123", "IE") == "+441632960123"


@pytest.mark.parametrize("written", ["", "999", "960123", "01632 960123 x4", "call me", "\0", "0163296012345678"])
def test_what_is_no_whole_number_is_a_mistake_in_its_field(written):
    mistake = read_phone(written, "GB")
    assert isinstance(mistake, Mistake)
    assert mistake.field == "phone"
    assert repr(written) in str(mistake)


# BS 7666: the shapes of a British postcode; ZZ9 stands for no place at all.
@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("zz99 3wz", "ZZ99 3WZ"),
        ("ZZ993WZ", "ZZ99 3WZ"),
        (" z1 1 aa ", "Z1 1AA"),
        ("zz1a-1aa", "ZZ1A 1AA"),
        ("gir 0aa", "GIR 0AA"),
    ],
)
def test_a_postcode_is_read_in_any_case_and_spacing(written, read):
    assert read_postcode(written, "GB") == read


@pytest.mark.parametrize("written", ["", "ZZ99", "ZZ99 WZ3", "12345", "ZZ99 3WZ 1", "ΖΖ99 3WZ"])
def test_what_is_no_postcode_is_a_mistake(written):
    assert isinstance(read_postcode(written, "GB"), Mistake)


def test_elsewhere_a_postcode_stays_as_it_is_written_there():
    assert read_postcode("x99  xx99", "IE") == "X99 XX99"
    assert isinstance(read_postcode("?", "IE"), Mistake)


@pytest.mark.parametrize(
    ("need", "due"),
    [
        (Need("power", date(2026, 3, 1)), date(2027, 3, 1)),
        (Need("power", date(2024, 2, 29)), date(2025, 2, 28)),
        (Need("power", date(2024, 1, 10), reviewed=date(2025, 6, 5)), date(2026, 6, 5)),
    ],
)
def test_a_need_is_asked_about_again_after_twelve_months(need, due):
    assert review_due(need) == due


@pytest.mark.parametrize(
    ("words", "fold"),
    [
        (("Zoë  O’Neil-Marsh",), " zoe oneil marsh "),
        (("14b MILL Lane", "Ashcombe"), " 14b mill lane ashcombe "),
        (("Łukasz Størm, Strauß",), " lukasz storm strauss "),
        (("...", ""), ""),
    ],
)
def test_words_are_folded_to_plain_small_letters_between_spaces(words, fold):
    assert folded(*words) == fold


@pytest.mark.parametrize("once", ["İstanbul", "ﬁne", "Ⅷ", "e\u0301"])
def test_folding_what_is_folded_changes_nothing(once):
    assert folded(folded(once)) == folded(once)


# Gas Safety (Installation and Use) Regulations 1998, reg. 36(3)(c): two years.
def test_a_landlords_record_is_kept_two_years():
    assert kept_until("gas-safety-record", date(2024, 2, 29)) == date(2026, 2, 28)
    assert "36(3)(c)" in KEPT_BY_LAW["gas-safety-record"].rule


def test_an_invoice_is_kept_six_years_from_the_end_of_any_year_it_may_fall_in():
    assert kept_until("invoice", date(2026, 12, 31)) == date(2033, 12, 31)


def test_a_notice_is_kept_three_years():
    assert kept_until("unsafe-notice", DAY) == date(2029, 11, 25)
