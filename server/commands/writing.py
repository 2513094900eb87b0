"""`tundish write`: the author's desk, a page for each article that changes as its file is saved."""

from typing import Annotated

import typer

from server.commands.console import Folder, fail, settings, told_plainly

PORT = 8481


def write(
    articles: Folder = None,
    port: Annotated[int, typer.Option(min=1, max=65535, help="The port of this machine to serve on.")] = PORT,
) -> None:
    """Show every article drawn, with its findings, on a page that changes as the file is saved."""
    from server.author import Shelf, create_desk, watched
    from server.author.app import HERE
    from server.serving import PortTaken, listen, serve_app

    here = settings()
    with told_plainly():
        shelf = Shelf(articles or here.articles, here.ranges)
    try:
        with told_plainly(), listen(HERE, port) as bound, watched(shelf):
            typer.echo(f"Open http://{HERE}:{port} and keep it beside your editor. Stop with Ctrl and C.")
            serve_app(bound, create_desk(shelf))
    except PortTaken:
        fail(f"Expected the port {port} of this machine, but it cannot be had. Try `tundish write --port {port + 1}`.")
