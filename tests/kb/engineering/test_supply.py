"""The usual gas pressures, against the figures the articles give an engineer."""

from pathlib import Path

import pytest

from kb.engineering.supply import BANDS, drop

ARTICLE = Path(__file__).parents[3] / "articles" / "en" / "on-arrival.md"


def test_the_bands_are_those_of_the_articles() -> None:
    text = ARTICLE.read_text()
    mains, propane = BANDS["natural-gas"], BANDS["lpg"]

    assert f"not above about {mains.standing:g} mbar" in text
    assert f"nominally {mains.nominal:g} ± {mains.high - mains.nominal:g} mbar" in text
    assert f"at most {mains.drop:g} mbar from meter outlet to appliance" in text
    assert f"Propane {propane.nominal:g} mbar nominal, usually ± {propane.high - propane.nominal:g}" in text
    assert f"Drop at most about {propane.drop:g} mbar" in text


@pytest.mark.parametrize("fuel", BANDS)
def test_a_danger_lies_beyond_what_is_usual(fuel: str) -> None:
    bands = BANDS[fuel]

    assert bands.low < bands.nominal < bands.high < bands.working_danger
    assert bands.high < bands.standing < bands.standing_danger


def test_the_drop() -> None:
    assert drop(20.5, 19.8) == pytest.approx(0.7)
