import pytest

from kb.search.codelike import codes_in


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
