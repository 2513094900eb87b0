import pytest

from kb.engineering.calculation import Choice, Figure
from kb.engineering.calculations import CALCULATIONS


def test_every_calculation_is_listed_with_its_question(engineer):
    page = engineer.get("/engineer/sums").text
    for name, each in CALCULATIONS.items():
        assert f'href="/engineer/sums/{name}"' in page
        assert each.question in page.replace("&#39;", "'")


@pytest.mark.parametrize("name", CALCULATIONS)
def test_each_has_a_page_with_its_inputs_its_formulas_and_their_sources(engineer, name):
    page = engineer.get(f"/engineer/sums/{name}")
    assert page.status_code == 200
    assert 'aria-label="Result"' not in page.text
    for each in CALCULATIONS[name].inputs:
        assert f'name="{each.name}"' in page.text
        assert isinstance(each, Choice | Figure)
    assert "<dt>Source</dt>" in page.text


def test_a_result_comes_with_its_working(engineer):
    # 0.05 m³ in 65 s at 39.3 MJ/m³ are 30.231 kW gross: the physics, 1000 × 0.05 × 39.3 ÷ 65.
    page = engineer.get("/engineer/sums/gas-rate", params={"volume": "0,05", "seconds": "65 s", "cv": "39.3"})
    assert "30.2 kW" in page.text
    assert "0.05 m³ in 65 s × 39.3 MJ/m³" in page.text


def test_what_cannot_be_used_is_said_at_its_input_and_stays_there(engineer):
    page = engineer.get("/engineer/sums/gas-rate", params={"volume": "abc", "seconds": "65"})
    assert page.status_code == 422
    assert 'value="abc"' in page.text
    assert 'aria-invalid="true"' in page.text
    assert "abc" in page.text.split('id="p-volume"')[1].split("</p>")[0]
