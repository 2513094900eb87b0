import shutil
from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image

from kb.card import CardError, layout, png
from kb.card.press import Press, press
from kb.card.sizes import BOTH
from kb.card.value import Setting
from tests.kb.card.cards import card, home


def test_a_folder_without_the_typeface_says_how_to_get_it(tmp_path):
    with pytest.raises(CardError, match=r"typeface Atkinson Hyperlegible in .*pip install fontpkg"):
        Press(fonts=tmp_path)


def test_a_missing_template_says_where_it_should_be(tmp_path):
    with pytest.raises(CardError, match=r"template at .*card\.typ.*Install Tundish again"):
        Press(template=tmp_path / "card.typ")


@pytest.fixture
def broken(tmp_path):
    """A press whose template has lost one of its parts."""
    for part in layout.TEMPLATE.parent.glob("*.typ"):
        shutil.copy(part, tmp_path)
    (tmp_path / "a6.typ").write_text("#let back = (")
    return Press(template=tmp_path / "card.typ")


@pytest.mark.parametrize("ask", ["pdf", "tried", "heights"])
def test_a_broken_template_is_our_fault_and_its_inner_text_is_not_shown(broken, ask):
    with pytest.raises(CardError) as told:
        getattr(broken, ask)(card())
    assert "Install Tundish again" in str(told.value)
    assert "delimiter" not in str(told.value)


def test_everybody_shares_one_press():
    assert press() is press()


def test_the_same_card_gives_the_same_bytes():
    assert Press().pdf(card()) == press().pdf(card())


def test_cards_printed_at_the_same_time_are_each_their_own():
    cards = [card(home_=home(appliance=f"Anymake {n}")) for n in range(8)]
    alone = [press().pdf(each) for each in cards]
    with ThreadPoolExecutor(4) as together:
        assert list(together.map(press().pdf, cards)) == alone


@pytest.mark.parametrize("side", BOTH)
@pytest.mark.parametrize(("size", "between", "sits"), [(8.5, 0.0, True), (8.5, 40.0, False), (20.0, 0.0, False)])
def test_a_card_sits_only_while_each_side_ends_on_its_own_page(side, size, between, sits):
    made = card()
    assert press().sits(replace(made, **{side: Setting(size, between)})) is sits


def test_what_is_kept_of_one_card_is_never_taken_for_another():
    one, other = card(), card(home_=home(appliance="Anymake 30"))
    assert [press().pdf(each) for each in (one, other, one)] == [Press().pdf(each) for each in (one, other, one)]


def memory_mb():
    return int(Path("/proc/self/statm").read_text().split()[1]) * 4096 / 1e6


def test_asking_again_and_again_whether_a_card_fits_does_not_fill_the_memory():
    cards = [card(home_=home(appliance=f"Anymake {n}")) for n in range(60)]
    for each in cards[:20]:
        press().tried(each)
    before = memory_mb()
    for each in cards[20:]:
        press().tried(each)
    assert memory_mb() - before < 40, "a trial keeps over 2 MB unless Typst is made to let go of it"


@pytest.mark.parametrize("side", BOTH)
def test_a_side_is_shown_as_a_picture_of_its_size(side):
    shown = Image.open(BytesIO(png(card(), side, dpi=254)))
    assert shown.size == pytest.approx((1050, 1480), abs=1)


def test_the_two_sides_are_not_the_same_picture():
    assert png(card(), "front") != png(card(), "back")


def test_the_templates_hold_no_colours_of_their_own():
    for part in Path(layout.TEMPLATE).parent.glob("*.typ"):
        assert "#" + "0" not in part.read_text()
        assert not any(f"rgb({quote}" in part.read_text() for quote in "\"'")
