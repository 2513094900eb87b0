"""The demo's homes with the real articles: what is shown to people must be printable."""

from pathlib import Path

import pytest

from demo import load as demo
from kb.card import Card, card_of
from kb.firm import read_firm
from kb.home import Home
from kb.library import load
from kb.ranges import load_ranges

ARTICLES = Path(__file__).parents[3] / "articles" / "en"
HOMES = {fields["key"]: demo._home(fields) for fields in demo._written() if "revoked" not in fields}


@pytest.fixture(scope="module")
def world():
    firm, findings = read_firm("firm.toml", demo.FIRM.read_text(encoding="utf-8"))
    assert firm is not None, findings
    return load_ranges(demo.RANGES)[0], firm, load(ARTICLES)


def issued(home: Home, world) -> Card:
    ranges, firm, library = world
    found = card_of(home, ranges[home.range], firm, library.regions[firm.region], library)
    assert isinstance(found, Card), [str(reason) for reason in found.reasons]
    return found


@pytest.mark.parametrize("key", HOMES)
def test_every_home_of_the_demo_has_its_card_with_four_faults_and_all_its_places(key, world):
    found = issued(HOMES[key], world)
    assert len(found.faults) == 4
    assert len(found.places) == len(set(HOMES[key].places) - {"filling-loop"})


@pytest.mark.parametrize("key", HOMES)
def test_no_card_of_the_demo_speaks_of_what_the_home_lacks(key, world):
    said = " ".join(line for fault in issued(HOMES[key], world).faults for line in (fault.title, *fault.lines)).lower()
    facts = HOMES[key].known.facts
    assert facts["system"] == "sealed" or not any(word in said for word in ("gauge", "top up", "needle", "fill"))
    assert facts["meter"] != "none" or "meter" not in said
