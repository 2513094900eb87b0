"""Every template is handed exactly the values it uses."""

from dataclasses import fields

import pytest
from jinja2 import nodes
from jinja2.meta import find_undeclared_variables

from server.engineer import pages as engineer
from server.engineer import reading, working
from server.household import pages
from server.staff import pages as staff
from server.web import errors
from server.web.pages import Page, environment

PAGES = [
    each
    for module in (pages, errors, staff, engineer, reading, working)
    for each in vars(module).values()
    if isinstance(each, type) and issubclass(each, Page) and each is not Page
]


def used(template: str) -> set[str]:
    """The names a template and the one it extends take from the page."""
    loader = environment().loader
    assert loader is not None
    source, _, _ = loader.get_source(environment(), template)
    tree = environment().parse(source)
    above = [node.template.value for node in tree.find_all(nodes.Extends) if isinstance(node.template, nodes.Const)]
    macros = {name for node in tree.find_all(nodes.FromImport) for name in node.names}
    return (find_undeclared_variables(tree) - macros).union(*(used(name) for name in above))


@pytest.mark.parametrize("page", PAGES)
def test_a_template_uses_what_its_page_declares(page: type[Page]) -> None:
    assert used(page.template) == {field.name for field in fields(page)}


def test_every_page_is_looked_at() -> None:
    assert len(PAGES) == 17
