"""What did a household do that reads out its call reference?"""

from typing import Annotated

import typer

from kb.article import Audience, End
from kb.guide import By
from kb.library import load
from kb.reference import Slip, heard
from kb.walk import walk
from server.commands.console import FOUND, Folder, fail, settings, told_plainly

SAID = {
    Slip.MISTYPED: "Expected a call reference, found one with a character that is wrong. Let it be read out again.",
    Slip.NO_SUCH_ARTICLE: "Expected a call reference of this library, found one for an article that is no more.",
    Slip.ANSWER_GONE: "The guidance has changed: some of what was answered is no longer in it. Ask that again.",
    Slip.CHANGED: "The guidance has changed: these may not be the answers that were given. Read each of them back.",
}
"""What a slip means for whoever took the call."""


def listen(
    code: Annotated[list[str], typer.Argument(help="The reference as it was read out.")], articles: Folder = None
) -> None:
    """Show the questions and answers that a call reference stands for."""
    with told_plainly():
        library = load(articles or settings().articles)
    said = heard(library, " ".join(code))
    if said.slip in (Slip.MISTYPED, Slip.NO_SUCH_ARTICLE):
        fail(SAID[said.slip], FOUND)
    start = library.articles[said.article].first(Audience.HOUSEHOLD)
    assert start is not None
    standing = walk(library, start, said.trail)
    typer.echo(library.articles[said.article].title)
    for taken in standing.taken:
        by_all = " (none of these)" if taken.by is By.NONE_OF_THESE else ""
        figure = f" ({taken.reading:g} bar)" if taken.reading is not None else ""
        typer.echo(f"- {taken.step.title} {taken.answer.text}{figure}{by_all}")
    end = f" (how soon: {standing.at.pace})" if isinstance(standing.at, End) else ""
    typer.echo(f"= {standing.at.title}{end}")
    if said.slip is not None:
        fail(SAID[said.slip], FOUND)
