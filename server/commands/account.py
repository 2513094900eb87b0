"""Who may sign in? `tundish account add`, `list`, `roles`, `password`, `code`, `sign-out` and `end`."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from typing import Annotated

import typer

from kb.staff import Account, Role, made_password, weakness, wrong_name
from server.commands.console import FOUND, fail, settings, told_plainly
from server.store import Store

app = typer.Typer(no_args_is_help=True, help="Look after those who sign in.")

Name = Annotated[str, typer.Argument(help="The name somebody signs in with.")]
Roles = Annotated[list[Role], typer.Option("--role", help="What they do; may be given more than once.")]
Typed = Annotated[bool, typer.Option("--password-stdin", help="Read a password instead of making one.")]


@app.command()
def add(name: Name, role: Roles, password_stdin: Typed = False) -> None:
    """Add an account and print the password made for it."""
    from server.staff.passwords import hashed
    from server.store.staff import NameTaken

    wrong = wrong_name(name)
    if wrong:
        fail(wrong, FOUND)
    password = _password(name, password_stdin)
    with _store() as store:
        try:
            store.staff.add(Account(name, frozenset(role)), hashed(password), datetime.now(UTC))
        except NameTaken:
            fail(f"Expected a new name, found that {name!r} is or was an account's. Choose another name.", FOUND)
    _tell(name, password, password_stdin)


@app.command(name="list")
def list_() -> None:
    """List every account that may sign in."""
    with _store() as store:
        for account in store.staff.accounts():
            code = "  with one-time code" if account.with_code else ""
            typer.echo(f"{account.name}: {', '.join(sorted(account.roles)) or 'no role'}{code}")


@app.command()
def roles(name: Name, role: Roles) -> None:
    """Give an account these roles and no others."""
    with _store() as store:
        _known(name, store.staff.set_roles(name, role))
    typer.echo(f"{name} now is {', '.join(sorted(role))}.")


@app.command()
def password(name: Name, password_stdin: Typed = False) -> None:
    """Make a new password and end every session of the account."""
    from server.staff.passwords import hashed

    new = _password(name, password_stdin)
    with _store() as store:
        _known(name, store.staff.set_password(name, hashed(new)))
        store.staff.end_sessions(name)
    _tell(name, new, password_stdin)


@app.command()
def code(name: Name, off: Annotated[bool, typer.Option(help="Ask for no codes any more.")] = False) -> None:
    """Ask for one-time codes as well (RFC 6238), and print what an authenticator app must read once."""
    import pyotp
    import segno

    secret = None if off else pyotp.random_base32()
    with _store() as store:
        _known(name, store.staff.set_code_secret(name, secret))
    if secret is None:
        typer.echo(f"{name} signs in without a code now.")
        return
    address = pyotp.TOTP(secret).provisioning_uri(name=name, issuer_name="Tundish")
    segno.make(address).terminal(sys.stdout, compact=True)
    typer.echo(f"Let {name} read this with an authenticator app. It is shown only once.\n{address}")


@app.command(name="sign-out")
def sign_out(name: Name) -> None:
    """End every session of an account, for instance after a phone was lost."""
    with _store() as store:
        typer.echo(f"Ended {store.staff.end_sessions(name)} sessions of {name}.")


@app.command()
def end(name: Name) -> None:
    """Let an account sign in no more; its name stays in what it did."""
    with _store() as store:
        _known(name, store.staff.end(name, datetime.now(UTC)))
    typer.echo(f"{name} signs in no more.")


@contextmanager
def _store() -> Iterator[Store]:
    with told_plainly(), Store(settings().database) as store:
        yield store


def _password(name: str, typed: bool) -> str:
    if not typed:
        return made_password()
    given = sys.stdin.readline().rstrip("\n")
    weak = weakness(given, name)
    if weak:
        fail(weak, FOUND)
    return given


def _tell(name: str, password: str, typed: bool) -> None:
    typer.echo(f"{name} signs in with the password you typed." if typed else f"{name} signs in with: {password}")


def _known(name: str, there: bool) -> None:
    if not there:
        fail(f"Expected the name of an account, found {name!r}. `tundish account list` names them.", FOUND)
