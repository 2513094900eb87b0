from dataclasses import replace

import pytest

from kb.card import Style, fingerprint
from kb.card.value import Setting
from tests.builders import firm
from tests.kb.card.cards import LOGO, card, home


def test_the_same_contents_have_the_same_fingerprint_whatever_the_sizes_that_were_found():
    made = card()
    assert fingerprint(made) == fingerprint(card())
    assert fingerprint(replace(made, front=Setting(9.0), back=Setting(9.0, 1.0))) == fingerprint(made)


def test_it_is_sixty_four_characters_for_a_column():
    assert len(fingerprint(card())) == 64


PHONE = [{"number": "01632 960199", "what": "office"}]


@pytest.mark.parametrize(
    "changed",
    [
        {"firm_": firm(phones=PHONE)},
        {"firm_": firm(colour="#1d4e5f")},
        {"firm_": firm(site="https://other.example")},
        {"home_": home(places={"stop-tap": "in the porch"})},
        {"home_": home(appliance="Anymake 30")},
        {"style": Style("id1")},
        {"style": Style("a6", LOGO)},
        {"style": Style("a6", replace(LOGO, svg=LOGO.svg + " "))},
    ],
)
def test_whatever_is_printed_otherwise_changes_it(changed):
    assert fingerprint(card(**changed)) != fingerprint(card())
