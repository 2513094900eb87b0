"""`tundish draw`: the tree of an article as a picture."""

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from server.commands.console import Folder, fail, settings, told_plainly


def draw(
    article: Annotated[str, typer.Argument(help="The id of an article, such as low-pressure.")],
    engineer: Annotated[bool, typer.Option(help="Draw the engineer's part.")] = False,
    to: Annotated[Path | None, typer.Option(help="The SVG to write; otherwise it goes to standard output.")] = None,
    articles: Folder = None,
) -> None:
    """Draw the tree of an article as SVG, with what the rules find marked in it."""
    from kb import rules
    from kb.article import Audience
    from kb.drawing import draw as drawn
    from kb.library import load

    with told_plainly():
        library = load(articles or settings().articles)
    audience = Audience.ENGINEER if engineer else Audience.HOUSEHOLD
    found = library.articles.get(article)
    if found is None or found.first(audience) is None:
        known = ", ".join(sorted(each.id for each in library.articles.values() if each.first(audience)))
        unread = [str(each) for each in library.findings if each.place.file == f"{article}.md"]
        said = f"Expected an article with a part for the {audience}, found {article!r}."
        fail("\n".join([f"{said} There are {known}.", *unread]))
    picture = drawn(found, library, audience, rules.check(library, date.today()))
    if to is None:
        typer.echo(picture)
        return
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        to.write_text(picture, encoding="utf-8")
    except OSError:
        fail(f"Expected to write {to}, but this account cannot. Name another file.")
    typer.echo(f"Wrote {to}.")
