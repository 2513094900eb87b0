import pytest

from kb.search.text import LONGEST, LONGEST_CLAUSE, clauses


def words(text: str) -> list[str]:
    return [" ".join(clause) for clause in clauses(text)]


def test_a_text_is_cut_at_its_stops_and_where_it_contrasts():
    assert words("Taps hot, radiators cold but no fault! Why?") == [
        "taps hot",
        "radiators cold",
        "no fault",
        "why",
    ]


@pytest.mark.parametrize("written", ["won't", "wont", "WON’T", "won`t", "won´t"])
def test_every_apostrophe_is_left_out(written):
    assert words(f"it {written} light") == ["it wont light"]


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("C/H off", "ch off"),
        ("h/w off", "hw off"),
        ("re-light it", "re light it"),
        ("heating/hot water", "heating or hot water"),
        ("1,5 bar", "1.5 bar"),
        ("-5 outside", "minus 5 outside"),
        ("£20 gone", "money 20 gone"),
        ("90°C", "90 degrees c"),
        ("1.5bar", "1.5 bar"),
    ],
)
def test_shorthand_is_written_out(written, meant):
    assert words(written) == [meant]


def test_the_gas_is_told_from_a_company_by_its_capitals():
    assert words("CO in here") == ["carbon monoxide in here"]
    assert words("smith and co in here") == ["smith and co in here"]


def test_except_stays_to_say_no_to_what_follows():
    assert words("all works except the heating") == ["all works", "except the heating"]


@pytest.mark.parametrize("text", ["", " \n\t", "\0\0", "...!?", "😀😀", "\u202e\u200f", "()[]--"])
def test_what_holds_no_word_has_no_clause(text):
    assert clauses(text) == ()


def test_other_alphabets_are_words_too():
    assert words("אין חימום \u202e now") == ["אין חימום now"]


def test_only_so_much_is_read():
    assert clauses("a " * LONGEST + "gas") == clauses("a " * LONGEST)


def test_no_clause_is_longer_than_it_may_be():
    assert max(len(clause) for clause in clauses("boiler " * 1000)) == LONGEST_CLAUSE
