"""Every template of the office is handed exactly the values it uses."""

from dataclasses import fields

import pytest

from server.office import list_pages, look, pages
from server.web.pages import Page
from tests.server.web.test_pages import used

PAGES = [
    each
    for module in (pages, list_pages, look)
    for each in vars(module).values()
    if isinstance(each, type) and issubclass(each, Page) and each.__module__ == module.__name__
]


@pytest.mark.parametrize("page", PAGES)
def test_a_template_uses_what_its_page_declares(page: type[Page]) -> None:
    assert used(page.template) == {field.name for field in fields(page)}


def test_every_page_is_looked_at() -> None:
    assert len(PAGES) == 12
