"""What is read out instead of a picture is held against the tags of the printed card (ISO 14289-1)."""

import re

import pytest

from kb.card import BOTH, Style, pdf
from kb.card.reading import read_out
from kb.card.sizes import FORMATS
from tests.builders import firm
from tests.kb.card.cards import LOGO, MARKS, SEALED, VENTED, card, home
from tests.kb.card.printed import Tag, tags

HOMES = {
    "sealed": home(SEALED, MARKS),
    "vented": home(VENTED, places={}, next_service=None),
    "lpg": home({**SEALED, "fuel": "lpg", "meter": "none"}),
}


def letters(text: str) -> str:
    """Nothing but letters and figures: signs between words are for the ear on one side and for the eye on the other."""
    return re.sub(r"\W", "", text)


def heard(tag: Tag) -> str:
    """What a screen reader says of a tag: a picture's words instead of what is in it."""
    if tag.kind == "Figure":
        return tag.alternative
    return " ".join((tag.text, *map(heard, tag.children)))


@pytest.mark.parametrize("size", FORMATS)
@pytest.mark.parametrize("which", HOMES)
@pytest.mark.parametrize("demo", [False, True])
def test_a_side_is_read_out_as_its_tags_are(size, which, demo):
    style = Style(size, LOGO if demo else None)
    made = card(home_=HOMES[which], firm_=firm(demo=demo), style=style)
    pages = [letters(heard(page)) for page in tags(pdf(made))]
    assert [letters(read_out(made, side)) for side in BOTH] == pages


def test_lines_are_sentences_so_that_they_are_not_run_together():
    said = read_out(card(), "front")
    assert "Smell gas, or the alarm sounds? No flames" in said
    assert "From outside, ring 0800 111 999, gas emergency line. If anyone is ill" in said
