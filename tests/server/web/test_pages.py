"""Every template is handed exactly the values it uses."""

from dataclasses import fields
from importlib import import_module
from pathlib import Path
from pkgutil import walk_packages

import pytest
from jinja2 import nodes
from jinja2.meta import find_undeclared_variables

import server
from server.web.pages import TEMPLATES, Page, environment


def all_pages() -> list[type[Page]]:
    """Every page there is, each a final subclass of Page in some module of the server."""
    for module in walk_packages(server.__path__, "server."):
        if ".migrations" not in module.name:
            import_module(module.name)
    ahead, found = [Page], []
    while ahead:
        for each in ahead.pop().__subclasses__():
            ahead.append(each)
            found.append(each)
    # A class with slots is made twice; the author's desk has a test of its own.
    once = {f"{each.__module__}.{each.__qualname__}": each for each in found if hasattr(each, "template")}
    return [each for name, each in once.items() if not name.startswith("server.author.")]


PAGES = sorted(all_pages(), key=lambda page: page.template)


def extends(template: str) -> str | None:
    """The template that another one is set into."""
    loader = environment().loader
    assert loader is not None
    tree = environment().parse(loader.get_source(environment(), template)[0])
    return next((str(node.template.value) for node in tree.find_all(nodes.Extends)), None)


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


def test_every_template_that_is_a_page_belongs_to_one() -> None:
    loader = environment().loader
    assert loader is not None
    author = {path.name for path in (Path(server.__path__[0]) / "author/templates").iterdir()}
    names = [name for name in loader.list_templates() if name.endswith(".j2") and name not in author]
    above = {name: extends(name) for name in names}
    pages = {name for name in names if above[name] and name not in above.values()}

    assert pages <= {page.template for page in PAGES}


def test_no_two_rooms_have_templates_of_one_name() -> None:
    names = [path.name for folder in TEMPLATES for path in folder.iterdir()]

    assert len(names) == len(set(names))
