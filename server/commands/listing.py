"""Homes from a file and into one: `tundish homes import`, `export` and `template`."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TextIO

import typer

from server.commands.console import FOUND, by, fail, settings, told_plainly

if TYPE_CHECKING:
    from kb.firm import Firm
    from kb.listing import Listing
    from server.store.register import Lists

app = typer.Typer(no_args_is_help=True, help="Take homes in from a table, and write them into one.")


@app.command("import")
def import_(
    file: Annotated[Path, typer.Argument(help="A table of homes as CSV.")],
    dry_run: Annotated[
        bool, typer.Option("--dry-run", help="Only look: tell every problem and write nothing.")
    ] = False,
) -> None:
    """Take in a table of homes, all of it or, with anything wrong in it, nothing."""
    read = _read(file)
    bar = typer.progressbar(length=2 * len(read.rows), label="Homes", file=sys.stderr)
    with _lists() as (lists, firm), bar as shown:
        look = dry_run or bool(read.problems)
        taken = lists.take(read.rows, firm.region, date.today(), by(), look, shown.update)
    problems = sorted((*read.problems, *taken.problems), key=lambda each: each.row)
    for problem in problems:
        typer.echo(problem)
    if problems:
        many = "1 thing" if len(problems) == 1 else f"{len(problems):,} things"
        fail(f"{many} to be mended. Nothing was imported.", FOUND)
    done = "Nothing is wrong, and nothing was written" if dry_run else "Imported"
    typer.echo(f"{done}: {taken.new:,} new homes, {taken.changed:,} changed, {taken.same:,} as they were.")


@app.command()
def export(to: Annotated[Path, typer.Argument(help="The CSV to write.")]) -> None:
    """Write every home into a table that can be taken in again. It holds people's data: keep it safe."""
    from kb.listing import listing

    with _lists() as (lists, firm), _written(to) as file:
        homes = -1
        for homes, line in enumerate(listing(lists.every(by()), firm.region)):  # noqa: B007 - told below
            file.write(line)
    typer.echo(f"Wrote {homes:,} homes to {to}.")


@app.command()
def template(to: Annotated[Path, typer.Argument(help="The CSV to write.")]) -> None:
    """Write an empty table with the usual columns, and tell every column that there is."""
    from kb.listing import COLUMNS, listing

    with _written(to) as file:
        file.writelines(listing((), "GB"))
    for column in COLUMNS:
        values = f": {', '.join(column.values)}" if column.values else ""
        typer.echo(f"{column.name}: {column.expects}{values}")


@contextmanager
def _lists() -> "Iterator[tuple[Lists, Firm]]":
    from server.opening import open_firm
    from server.store import Store

    here = settings()
    with told_plainly(), Store(here.database) as store:
        yield store.lists, open_firm(here)


@contextmanager
def _written(to: Path) -> Iterator[TextIO]:
    try:
        with to.open("w", encoding="utf-8", newline="") as file:
            yield file
    except OSError:
        fail(f"Expected to write {to}, but this account cannot. Name another file.")


def _read(file: Path) -> "Listing":
    from kb.listing import read_listing
    from kb.listing.reading import decoded

    try:
        return read_listing(decoded(file.read_bytes()))
    except OSError:
        fail(f"Expected a table of homes at {file}, found none that can be read. Name another file.")
