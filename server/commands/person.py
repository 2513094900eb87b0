"""A person's right to see what is held and to be forgotten: `tundish person show` and `forget`."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, TypeAlias

import typer

from server.commands.console import FOUND, by, fail, settings, told_plainly

if TYPE_CHECKING:
    from kb.register import Person
    from server.store.register import Register

    Meant: TypeAlias = tuple[str, Person]

app = typer.Typer(no_args_is_help=True, help="Show somebody what is held about them, or forget them.")

Who = Annotated[str, typer.Argument(help="Their name or a part of it, their phone, or the key of their home.")]
Number = Annotated[int | None, typer.Option("--number", help="Which of several, by the number that is shown.")]


@app.command()
def show(
    who: Who,
    number: Number = None,
    to: Annotated[Path | None, typer.Option(help="A text file to write instead.")] = None,
) -> None:
    """Print everything that is held about somebody, and nothing about anybody else."""
    from server.seen import sheet, text

    with _register() as (register, region):
        [(key, person)] = _meant(register, who, number, region)
        seen = register.seen(key, by(), person.id)
    held = text(sheet(seen)) if seen else ""
    if to is None:
        typer.echo(held, nl=False)
        return
    try:
        to.write_text(held, encoding="utf-8")
    except OSError:
        fail(f"Expected to write {to}, but this account cannot. Name another file.")
    typer.echo(f"Wrote {to}.")


@app.command()
def forget(
    who: Who,
    number: Number = None,
    everybody: Annotated[
        bool, typer.Option("--everybody", help="All of one home's people, named by its key: they moved out.")
    ] = False,
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask again.")] = False,
) -> None:
    """Forget somebody, but for what the law has the firm keep, which is named with the reason."""
    from server.seen import farewell, text

    with _register() as (register, region):
        going = _meant(register, who, number, region, everybody)
        if not yes:
            names = ", ".join(person.name for _, person in going)
            typer.confirm(f"Erase {names}, of the home {going[0][0]}, for good?", abort=True)
        for _, person in going:
            erased = register.erase(person.id or 0, by())
            typer.echo(f"{person.name} is forgotten.")
            if erased:
                typer.echo(text(farewell(erased)), nl=False)


def _meant(register: "Register", who: str, number: int | None, region: str, everybody: bool = False) -> "list[Meant]":
    """Who is meant, with the key of their home; ends the command where it may be somebody else."""
    from kb.keys import tidy

    if everybody and not tidy(who):
        fail("Expected the key of a home with --everybody, found a name or a number. Name them one by one, or the key.")
    found = [each for each in _found(register, who, region) if number in (None, each[1].id)]
    if not found:
        fail(f"Expected somebody known by {who!r}, found nobody. Try their phone, or less of their name.", FOUND)
    if len(found) > 1 and not everybody:
        listed = "\n".join(f"{person.id:>6}  {person.name}  {key}" for key, person in found)
        fail(f"Expected one person, found {len(found)}:\n{listed}\nSay which with --number.", FOUND)
    return found


def _found(register: "Register", who: str, region: str) -> "Iterator[Meant]":
    from kb.register import folded, understand

    asked = understand(who, region)
    for hit in register.find(asked, by()):
        record = register.read(hit.key, by())
        for person in record.people if record else ():
            named = asked.words and all(word in folded(person.name) for word in asked.words)
            rung = asked.digits and any(phone.endswith(asked.digits) for phone in person.phones)
            if named or rung or asked.key:
                yield hit.key, person


@contextmanager
def _register() -> "Iterator[tuple[Register, str]]":
    from server.opening import open_firm
    from server.store import Store

    here = settings()
    with told_plainly(), Store(here.database) as store:
        yield store.register, open_firm(here).region
