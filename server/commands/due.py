"""`tundish due`: what falls due in a month."""

from datetime import date
from typing import Annotated

import typer

from server.commands.console import by, fail, settings, told_plainly


def due(
    month: Annotated[str | None, typer.Option(help="The month as 2026-11; this one if it is left out.")] = None,
) -> None:
    """Tell which services, alarms, warranties and needs fall due in a month, and at which homes."""
    from kb.register import DUE, month_of, read_month
    from server.store import Store

    asked = read_month(month) if month else month_of(date.today())
    if asked is None:
        fail(f"Expected a month as 2026-11, found {month!r}. Write it so.")
    with told_plainly(), Store(settings().database) as store:
        found = store.lists.due(asked.first, asked.after(1).first, by())
    for each in found:
        where = ", ".join(part for part in (*each.lines, each.town, each.postcode) if part)
        typer.echo(f"{each.day}  {DUE[each.kind]}: {each.what}  {each.key}  {where}".rstrip())
    many = "1 thing falls" if len(found) == 1 else f"{len(found):,} things fall"
    typer.echo(f"{many} due in {asked.first:%B %Y}.", err=True)
