import pytest

from kb.reading import Counts, counts, sentences, syllables, words

# The example of the platypus is widely published with these counts and the grade 11.3.
PLATYPUS = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."


def test_the_grade_follows_the_formula_of_kincaid_1975() -> None:
    assert Counts(words=13, sentences=1, syllables=24).grade == pytest.approx(11.3, abs=0.05)


@pytest.mark.parametrize(
    ("given", "grade"),
    [((27, 5, 36), 2.249), ((18, 2, 22), 2.342), ((6, 1, 6), -1.450)],
)
def test_the_grade_agrees_with_another_implementation(given: tuple[int, int, int], grade: float) -> None:
    # The grades were worked out by textstat 0.7.13 for texts with these words, sentences and syllables.
    assert Counts(*given).grade == pytest.approx(grade, abs=0.001)


def test_a_text_without_words_is_the_easiest() -> None:
    assert counts("").grade == 0


def test_the_counts_of_the_published_example() -> None:
    assert counts(PLATYPUS) == Counts(words=13, sentences=1, syllables=24)


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Wait. Then look.", ("Wait.", "Then look.")),
        ("Is it 1.2 bar? Good!", ("Is it 1.2 bar?", "Good!")),
        ("A heading\nAn item\n\n", ("A heading", "An item")),
        ('Say "no gas." Then wait.', ('Say "no gas.', "Then wait.")),
        ("Wait ... then look", ("Wait ...", "then look")),
        ("- . -", ()),
    ],
)
def test_sentences_end_with_a_mark_or_a_line(text: str, found: tuple[str, ...]) -> None:
    assert sentences(text) == found


def test_a_joined_word_and_a_figure_are_one_word_each() -> None:
    assert words("The hot-water tap, at 1.5 bar.") == ("The", "hot-water", "tap", "at", "1.5", "bar")


@pytest.mark.parametrize(
    ("word", "spoken"),
    [
        ("water", 2),
        ("Boiler’s", 2),
        ("hot-water", 3),
        ("fire", 1),  # the shortest of two pronunciations
        ("999", 3),
        ("0.7", 4),
        ("tundish", 2),  # in no dictionary: by its vowels
        ("unlagged", 2),
        ("combi", 2),
        ("thermostats", 3),
        ("x", 1),
    ],
)
def test_syllables(word: str, spoken: int) -> None:
    assert syllables(word) == spoken
