"""A person's right to see what is held and to be forgotten: `tundish person see` and `forget`."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from server.commands.console import FOUND, by, fail, settings, told_plainly

if TYPE_CHECKING:
    from kb.register import Person
    from server.seen import Section
    from server.store.register import Register

app = typer.Typer(no_args_is_help=True, help="Show somebody what is held about them, or forget them.")

Who = Annotated[str, typer.Argument(help="Their name or a part of it, or their phone number.")]
Number = Annotated[int | None, typer.Option("--number", help="Which of several, by the number that is shown.")]


@app.command()
def see(
    who: Who,
    number: Number = None,
    to: Annotated[Path | None, typer.Option(help="A text file to write instead.")] = None,
) -> None:
    """Print everything that is held about somebody."""
    from server.seen import sheet

    with _register() as (register, region):
        key, person = _one(register, who, number, region)
        seen = register.seen(key, by(), person.id)
        text = _text(sheet(seen)) if seen else ""
    if to is None:
        typer.echo(text, nl=False)
        return
    try:
        to.write_text(text, encoding="utf-8")
    except OSError:
        fail(f"Expected to write {to}, but this account cannot. Name another file.")
    typer.echo(f"Wrote {to}.")


@app.command()
def forget(
    who: Who,
    number: Number = None,
    yes: Annotated[bool, typer.Option("--yes", help="Do not ask again.")] = False,
) -> None:
    """Forget somebody, but for what the law has the firm keep, which is named with the reason."""
    from server.seen import farewell

    with _register() as (register, region):
        key, person = _one(register, who, number, region)
        if not yes:
            typer.confirm(f"Erase {person.name}, of the home {key}, for good?", abort=True)
        erased = register.erase(person.id or 0, by())
    typer.echo(f"{person.name} is forgotten.")
    if erased:
        typer.echo(_text(farewell(erased)), nl=False)


def _one(register: "Register", who: str, number: int | None, region: str) -> "tuple[str, Person]":
    """The one person who is meant, with the key of their home; ends the command where it may be several."""
    found = [each for each in _meant(register, who, region) if number in (None, each[1].id)]
    if not found:
        fail(f"Expected somebody known by {who!r}, found nobody. Try their phone, or less of their name.", FOUND)
    if len(found) > 1:
        listed = "\n".join(f"{person.id:>6}  {person.name}  {key}" for key, person in found)
        fail(f"Expected one person, found {len(found)}:\n{listed}\nSay which with --number.", FOUND)
    return found[0]


def _meant(register: "Register", who: str, region: str) -> "Iterator[tuple[str, Person]]":
    from kb.register import folded, understand

    asked = understand(who, region)
    for hit in register.find(asked, by()):
        record = register.read(hit.key, by())
        for person in record.people if record else ():
            named = asked.words and all(word in folded(person.name) for word in asked.words)
            if named or (asked.digits and any(phone.endswith(asked.digits) for phone in person.phones)):
                yield hit.key, person


def _text(sections: "tuple[Section, ...]") -> str:
    return "\n".join(f"{part.title}\n" + "".join(f"  {line}\n" for line in part.lines) for part in sections)


@contextmanager
def _register() -> "Iterator[tuple[Register, str]]":
    from server.opening import open_firm
    from server.store import Store

    here = settings()
    with told_plainly(), Store(here.database) as store:
        yield store.register, open_firm(here).region
