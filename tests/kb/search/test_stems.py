import pytest

from kb.search.stems import stem
from kb.search.vocabulary import load


@pytest.mark.parametrize(
    "family",
    [
        ["leak", "leaks", "leaked", "leaking"],
        ["drop", "drops", "dropped", "dropping"],
        ["pipe", "pipes", "piping"],
        ["fire", "fires", "fired", "firing"],
        ["battery", "batteries"],
        ["hiss", "hisses", "hissing"],
        ["fill", "fills", "filled", "filling"],
    ],
)
def test_a_word_and_its_forms_have_one_stem(family):
    assert len({stem(word) for word in family}) == 1


@pytest.mark.parametrize("word", ["gas", "ring", "bleed", "red", "hot", "bus"])
def test_what_only_looks_like_an_ending_stays(word):
    assert stem(word) == word


@pytest.mark.parametrize(
    ("forms", "root"),
    [(["froze", "frozen", "freezing"], "freeze"), (["went", "gone"], "go"), (["lit", "lights"], "light")],
)
def test_irregular_words_have_one_root(forms, root):
    vocabulary = load()
    assert {vocabulary.root(form) for form in forms} == {vocabulary.root(root)}


def test_heating_is_no_form_of_heat():
    assert load().root("heating") == "heating"
