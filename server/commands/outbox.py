"""What is the firm still to be told, and why does it wait? `tundish outbox`."""

import typer

from server.commands.console import FOUND, settings, told_plainly


def outbox() -> None:
    """List the requests to call that the firm could not be told of yet, and why."""
    from server.store import Store

    here = settings()
    ways = {name for name, set_up in (("mail", here.mail), ("webhook", here.hook)) if set_up}
    with told_plainly(), Store(here.database) as store:
        waiting = store.outbox.waiting()
    if not ways:
        typer.echo("No way is set up to tell the firm: set TUNDISH_MAIL_HOST or TUNDISH_WEBHOOK_URL.", err=True)
    for each in waiting:
        why = each.why or "It was not tried yet."
        if each.way not in ways:
            why = "This way is not set up any more."
        typer.echo(
            f"{each.reference}  {each.way:<8}since {each.since:%Y-%m-%d %H:%M} UTC, tried {each.tries} times, "
            f"next {each.due:%H:%M} UTC. {why}"
        )
    typer.echo(f"{len(waiting)} wait to be told.", err=True)
    if waiting:
        raise typer.Exit(FOUND)
