"""`tundish homes`: what is held about one, a new key for a lost card, and tables of many in and out."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn, TextIO

import typer

from server.commands.console import FOUND, by, fail, settings, told_plainly

if TYPE_CHECKING:
    from kb.firm import Firm
    from kb.listing import Listing
    from server.store.register import Lists, Register

app = typer.Typer(no_args_is_help=True, help="Show a home, give it a new key, take homes in and write them out.")

Key = Annotated[str, typer.Argument(help="The key of a home, as printed.")]


@app.command()
def show(key: Key) -> None:
    """Print everything that is held about a home and its people; of one of them alone, see `tundish person show`."""
    from kb.keys import tidy
    from server.seen import sheet, text

    with _register() as register:
        seen = register.seen(tidy(key) or "", by())
    if seen is None:
        _no_home(key)
    typer.echo(text(sheet(seen)), nl=False)


@app.command()
def rekey(key: Key) -> None:
    """Give a home a new key because its card is lost; the old one opens nothing any more."""
    from kb.keys import tidy

    with _register() as register:
        new = register.replace_key(tidy(key) or "", by())
    if new is None:
        _no_home(key)
    typer.echo(f"The new key is {new}. Print a new card: the old one now says that it was withdrawn.")


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
def _register() -> "Iterator[Register]":
    from server.store import Store

    with told_plainly(), Store(settings().database) as store:
        yield store.register


def _no_home(key: str) -> NoReturn:
    fail(
        f"Expected the key of a home, found {key!r}, which opens none. Read it again from the card or the list.", FOUND
    )


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
