import shutil
from pathlib import Path

import pytest

from kb.search.vocabulary import ENGLISH, BrokenVocabulary, load

CATEGORIES = {
    *("ignition-failure", "flame-loss", "low-pressure", "high-pressure", "overheat", "no-power", "gas-supply"),
    *("condensate", "no-heating", "no-hot-water", "noise", "water-leak", "flue-fan", "cold-radiators"),
    *("sensor-fault", "controls", "wont-stop", "high-bills", "frost", "service"),
}
"""How-tos that a question means more surely than any fault: "how hot should the hot water be?"."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return shutil.copytree(ENGLISH, tmp_path / "english")


def test_every_category_has_signs():
    assert {sign.target for sign in load().signs} >= CATEGORIES


def test_every_sign_speaks_for_an_article_that_there_is():
    articles = Path(__file__).parents[3] / "articles" / "en"
    vocabulary = load()
    targets = {sign.target for sign in vocabulary.signs} | {sign.target for sign in vocabulary.dangers}
    assert targets - {path.stem for path in articles.glob("*.md")} == {"fire", "electric", "water-steam"}


def test_a_sign_that_names_no_concept_is_refused_with_its_line(folder):
    (folder / "signs" / "home.toml").write_text('[service]\n"boiler + unicorn" = 3\n')
    with pytest.raises(BrokenVocabulary, match=r"found unicorn in \[service\] 'boiler \+ unicorn'"):
        load(folder)


def test_the_words_of_other_trades_may_only_be_concepts_that_exist(folder):
    grammar = folder / "grammar.toml"
    grammar.write_text(grammar.read_text().replace('concepts = ["other-trade"', 'concepts = ["unicorn"'))
    with pytest.raises(BrokenVocabulary, match=r"found unicorn in \[elsewhere\]"):
        load(folder)


def test_a_file_that_is_no_toml_is_refused_by_name(folder):
    (folder / "concepts" / "noises.toml").write_text("noise = [")
    with pytest.raises(BrokenVocabulary, match=r"noises\.toml"):
        load(folder)


def test_an_editor_can_add_a_concept_and_a_sign(folder):
    (folder / "concepts" / "more.toml").write_text('unicorn = ["white horse .. horn"]\n')
    (folder / "signs" / "more.toml").write_text('[service]\n"unicorn - boiler" = 3\n')
    assert any(sign.together == {"unicorn"} and sign.without == {"boiler"} for sign in load(folder).signs)


def test_a_concept_may_be_spread_over_files(folder):
    (folder / "concepts" / "more.toml").write_text('boiler = ["kettle thing"]\n')
    ways = {phrase.roots for found in load(folder).phrases.values() for phrase in found if phrase.concept == "boiler"}
    assert ("thing",) not in ways
    assert {("kettl", "thing"), ("boiler",)} <= ways


def test_no_word_is_both_ours_and_left_alone():
    vocabulary = load()
    assert not vocabulary.spelt & vocabulary.left_alone


def concepts_of_signs() -> set[str]:
    vocabulary = load()
    signs = (*vocabulary.signs, *vocabulary.dangers)
    return {name.removeprefix("!") for sign in signs for name in sign.together | sign.without}


def test_every_concept_is_asked_for_by_a_sign_or_by_the_grammar():
    vocabulary = load()
    named = {phrase.concept.removeprefix("!") for found in vocabulary.phrases.values() for phrase in found}
    asked = concepts_of_signs() | vocabulary.subjects.keys() | vocabulary.opposites.keys() | {"harmless"}
    asked |= vocabulary.elsewhere | vocabulary.ours | vocabulary.shopping
    assert named - asked - {"not-doing", "without"} == set()


def test_the_grammar_names_only_concepts_that_exist():
    vocabulary = load()
    named = {phrase.concept for found in vocabulary.phrases.values() for phrase in found}
    made = set(vocabulary.opposites.values())
    grammar = vocabulary.subjects.keys() | vocabulary.opposites.keys() | vocabulary.verdicts.keys() | vocabulary.steady
    assert grammar - named - made == set()
