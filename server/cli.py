"""The `tundish` command, put together from its subjects.

The exit status is 0 when all is well, 1 when something was found or refused, 2 when the command could not run.
"""

import json
import sys
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from typing import Annotated

import typer

from kb.library import load
from server.commands import account, cards, causes, drawing, due, heard, homes, new, outbox, person, writing
from server.commands.console import FOUND, Folder, fail, settings, told_plainly
from server.commands.work import AS_TYPED, work
from server.settings import NOBODY_TOLD

app = typer.Typer(add_completion=False, no_args_is_help=True, pretty_exceptions_enable=False)
app.add_typer(account.app, name="account")
app.add_typer(homes.app, name="homes")
app.add_typer(person.app, name="person")
app.command()(due.due)
app.command(name="heard")(heard.listen)
app.command(context_settings=AS_TYPED)(work)
app.command()(new.new)
app.command()(drawing.draw)
app.command()(writing.write)
app.command()(cards.card)
app.command()(cards.cards)
app.command()(causes.causes)
app.command()(outbox.outbox)


@app.command()
def check(
    articles: Folder = None,
    explain: Annotated[str | None, typer.Option(help="Print a rule's manual page instead.")] = None,
) -> None:
    """Hold every article and range to the rules, and prove what must never happen over all walks."""
    from kb import rules
    from kb.proof import prove
    from kb.ranges import check_ranges, load_ranges

    if explain is not None:
        page = rules.explain(explain)
        if page is None:
            fail(f"Expected the name of a rule, found {explain!r}. The rules are {', '.join(rules.rules())}.")
        typer.echo(page)
        return
    here = settings()
    with told_plainly():
        library = load(articles or here.articles)
    ranges, wrong = load_ranges(here.ranges)
    proof = prove(library)
    findings = [
        *rules.check(library, date.today()),
        *proof.findings,
        *wrong,
        *check_ranges(ranges.values(), [article.id for article in library.faults()]),
    ]
    for finding in findings:
        typer.echo(finding)
    typer.echo(
        f"{len(findings)} findings in {len(library.articles)} articles and {len(ranges)} ranges. "
        f"Proof: {proof.walks:,} walks through {proof.states:,} states, for household and engineer.",
        err=True,
    )
    if findings:
        raise typer.Exit(FOUND)


@app.command()
def find(
    words: Annotated[list[str], typer.Argument(help="What somebody says; - reads a line each from standard input.")],
    as_json: Annotated[bool, typer.Option("--json", help="Print one line of JSON for each line of words.")] = False,
    articles: Folder = None,
) -> None:
    """Search in people's own words."""
    from kb.search import build, to_json

    with told_plainly():
        library = load(articles or settings().articles)
    finder = build(library)
    lines = (line.rstrip("\n") for line in sys.stdin) if words == ["-"] else iter([" ".join(words)])
    for line in lines:
        found = finder.find(line)
        if as_json:
            typer.echo(json.dumps(to_json(found)))
            continue
        for danger in found.danger:
            typer.echo(f"DANGER  {danger}: {library.articles[danger].title if danger in library.articles else ''}")
        if found.question:
            typer.echo(f"ASK     {found.question.words}")
            for answer in found.question.answers:
                typer.echo(f"        {answer.words}: {answer.article}")
        for hit in found.hits:
            typer.echo(f"{hit.score:6.2f}  {hit.article}: {library.articles[hit.article].title}")
        if not found.danger and not found.hits:
            typer.echo("Nothing found. Use other words.")


@app.command()
def walk(
    article: Annotated[str, typer.Argument(help="The id of an article, such as low-pressure.")],
    engineer: Annotated[bool, typer.Option(help="Walk the engineer's part.")] = False,
    articles: Folder = None,
) -> None:
    """Ask the way through an article, question by question."""
    from kb.article import Audience
    from server.terminal import ask_through

    with told_plainly():
        library = load(articles or settings().articles)
    audience = Audience.ENGINEER if engineer else Audience.HOUSEHOLD
    found = library.articles.get(article)
    start = found.first(audience) if found else None
    if start is None:
        known = ", ".join(sorted(each.id for each in library.articles.values() if each.first(audience)))
        fail(f"Expected an article with a part for the {audience}, found {article!r}. There are {known}.")
    ask_through(library, start, audience, say=typer.echo, ask=_ask())


def _ask() -> Callable[[str], str]:
    def ask(prompt: str) -> str:
        return str(typer.prompt(prompt))

    return ask


@app.command()
def migrate() -> None:
    """Make the database, or bring it to this program's version."""
    from server.store.upgrade import migrate as upgrade

    with told_plainly():
        typer.echo(f"The database is at version {upgrade(settings().database)}.")


@app.command()
def serve() -> None:
    """Serve the site."""
    from server.opening import open_site
    from server.serving import PortTaken, listen, serve_on

    here = settings()
    try:
        with told_plainly(), listen(here.host, here.port) as port:
            site = replace(open_site(here, date.today()), unheard=not here.tells)
            if site.unheard:
                typer.echo(NOBODY_TOLD, err=True)
            serve_on(port, site, here)
    except PortTaken as taken:
        fail(taken)


def main() -> None:
    """Run the command."""
    app()


if __name__ == "__main__":
    main()
