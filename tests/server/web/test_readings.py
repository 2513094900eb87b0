import pytest

from server.web.readings import figure


@pytest.mark.parametrize(
    ("typed", "bar"),
    [("1.2", 1.2), ("1,2", 1.2), (" 0.6 bar ", 0.6), ("2", 2.0), (".8", 0.8), ("1.25 Bars", 1.25), ("0", 0.0)],
)
def test_a_figure_is_read_as_people_write_it(typed: str, bar: float) -> None:
    assert figure(typed) == bar


@pytest.mark.parametrize(
    "typed", ["", "about 1", "1.2.3", "-1", "1e3", "٣", "²", "1.2 psi", "123", "\x00", "nan", "inf"]
)
def test_anything_else_is_not_guessed_at(typed: str) -> None:
    assert figure(typed) is None
