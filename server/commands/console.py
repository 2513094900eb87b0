"""What every command of `tundish` shares: its exit status, its settings, and errors told plainly.

The exit status is 0 when all is well, 1 when something was found or refused, 2 when the command could not run.
"""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from getpass import getuser
from pathlib import Path
from typing import Annotated, Final, NoReturn

import typer

from kb.library import UnusableFolder
from server.settings import Settings, WrongSettings

FOUND: Final = 1
COULD_NOT_RUN: Final = 2

Folder = Annotated[Path | None, typer.Option("--articles", help="The folder of articles.")]


def fail(message: object, status: int = COULD_NOT_RUN) -> NoReturn:
    """End the command with a message for whoever ran it."""
    typer.echo(str(message), err=True)
    raise typer.Exit(status)


def settings() -> Settings:
    """The settings of this machine, or the end of the command."""
    try:
        return Settings.read()
    except WrongSettings as wrong:
        fail(wrong)


def by() -> str:
    """Whoever runs a command answers for it, by the name the machine knows them by."""
    try:
        return f"command:{getuser()}"
    except (KeyError, OSError):
        return f"command:{os.getuid()}"


@contextmanager
def told_plainly() -> Iterator[None]:
    """Turn the errors that a person can mend into their messages."""
    from kb.card import CardError
    from server.opening import CannotServe
    from server.store import StoreError
    from server.web.static import MissingFont

    try:
        yield
    except (UnusableFolder, WrongSettings, CannotServe, StoreError, CardError, MissingFont) as error:
        fail(error)
