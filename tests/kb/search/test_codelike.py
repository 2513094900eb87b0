import pytest

from kb.search.codelike import besides_codes, codes_in


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("K17", ("K17",)),
        ("it shows k-17", ("K17",)),
        ("error code 133", ("133",)),
        ("fault code is e 12", ("E12",)),
        ("code EA flashing", ("EA",)),
        ("k1 and later k28", ("K1", "K28")),
    ],
)
def test_what_looks_like_a_code_is_one(text, codes):
    assert codes_in(text) == codes


@pytest.mark.parametrize(
    "text", ["", "at 5 in the morning", "1.5 bar", "CO2 alarm", "boiler at 70", "fault at 10pm", "a fault on it", "H2O"]
)
def test_other_letters_and_figures_are_none(text):
    assert codes_in(text) == ()


def test_there_are_never_many():
    assert len(codes_in(" ".join(f"k{number}" for number in range(100)))) == 4


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("it says k for kettle 11", ("K11",)),
        ("error code seven four", ("74",)),
        ("fault kilo one nine again", ("K19",)),
        ("the code is double six", ("66",)),
    ],
)
def test_a_code_that_is_spelt_out_is_one(text, codes):
    assert codes_in(text) == codes


@pytest.mark.parametrize(
    "text", ["code 23", "it shows K11", "k for kettle 11", "the error code is K-11 on the screen", "kilo one one", ""]
)
def test_a_code_alone_says_nothing_besides(text):
    assert besides_codes(text) == ""


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("code 23 but there is a smell", "smell"),
        ("K11, and water pours out", "water"),
        ("error 12 and the radiators are cold", "radiators"),
        ("no heat", "no heat"),
    ],
)
def test_what_is_said_besides_a_code_is_kept_without_it(text, says):
    rest = besides_codes(text)
    assert says in rest
    assert not any(sign.isdigit() for sign in rest)
