"""`tundish home`: what is held about a home, forgetting somebody, and a new key for a lost card."""

import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from getpass import getuser
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from server.commands.console import FOUND, fail, settings, told_plainly

if TYPE_CHECKING:
    from server.seen import Section
    from server.store.register import Register

app = typer.Typer(no_args_is_help=True, help="Show, erase, and give new keys to homes.")

Key = Annotated[str, typer.Argument(help="The key of a home, as printed.")]
Whose = Annotated[int | None, typer.Option("--person", help="The number of one of its people, as `list` shows it.")]


@app.command("list")
def people(key: Key) -> None:
    """List the people of a home with their numbers."""
    with _register() as register:
        record = register.read(_tidy(key), _by())
        if record is None:
            _no_home(key)
        for person in record.people:
            typer.echo(f"{person.id:>6}  {person.name}")


@app.command()
def show(key: Key, person: Whose = None) -> None:
    """Print everything that is held about a home, or of its people about one alone."""
    from server.seen import sheet

    with _register() as register:
        seen = register.seen(_tidy(key), _by(), person)
        if seen is None:
            _no_home(key)
        if person is not None and not seen.record.people:
            _nobody(key, person)
        _tell(sheet(seen))


@app.command()
def erase(
    key: Key,
    person: Whose = None,
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask again.")] = False,
) -> None:
    """Forget one of a home's people, or all of them, but for what the law has the firm keep."""
    from server.seen import farewell

    with _register() as register:
        record = register.read(_tidy(key), _by())
        if record is None:
            _no_home(key)
        going = [each for each in record.people if person in (None, each.id)]
        if not going:
            _nobody(key, person)
        if not yes:
            typer.confirm(f"Erase {', '.join(each.name for each in going)} for good?", abort=True)
        for each in going:
            erased = register.erase(each.id or 0, _by())
            if erased is not None:
                typer.echo(f"{each.name} is erased.")
                _tell(farewell(erased))


@app.command()
def rekey(key: Key) -> None:
    """Give a home a new key because its card is lost; the old one opens nothing any more."""
    with _register() as register:
        new = register.replace_key(_tidy(key), _by())
        if new is None:
            _no_home(key)
        typer.echo(f"The new key is {new}. Print a new card: the old one now says that it was withdrawn.")


@contextmanager
def _register() -> "Iterator[Register]":
    from server.store import Store

    with told_plainly(), Store(settings().database) as store:
        yield store.register


def _by() -> str:
    """Whoever runs the command answers for it, by the name the machine knows them by."""
    try:
        return f"command:{getuser()}"
    except (KeyError, OSError):
        return f"command:{os.getuid()}"


def _tidy(key: str) -> str:
    from kb.keys import tidy

    return tidy(key) or ""


def _tell(sections: "Iterable[Section]") -> None:
    for section in sections:
        typer.echo(section.title)
        for line in section.lines:
            typer.echo(f"  {line}")


def _no_home(key: str) -> NoReturn:
    fail(
        f"Expected the key of a home, found {key!r}, which opens none. Read it again from the card or the list.", FOUND
    )


def _nobody(key: str, person: int | None) -> NoReturn:
    found = "nobody" if person is None else f"no number {person}"
    fail(f"Expected one of the people of the home {key}, found {found}. Look with `tundish home list {key}`.", FOUND)
