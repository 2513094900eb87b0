"""The commands that print cards: of one home, or of many."""

import sys
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

import typer

from server.commands.console import FOUND, fail, settings, told_plainly

if TYPE_CHECKING:
    from kb.home import Home
    from server.parts import Refusal
    from server.site import Site

Size = Annotated[
    Literal["a6", "id1", "a5"], typer.Option(help="A6, the size of a bank card, or A5 in large print; two sides each.")
]
OnSheet = Annotated[
    bool,
    typer.Option("--sheet", help="On sheets of A4 with cut marks, to print on both sides, turned on the long edge."),
]


def card(
    key: Annotated[str, typer.Argument(help="The key of a home, as printed.")],
    to: Annotated[Path, typer.Option(help="The PDF to write.")],
    size: Size = "a6",
    sheet: OnSheet = False,
) -> None:
    """Write a home's card as PDF."""
    from kb.card import together
    from server.cards import gathered_for

    with told_plainly():
        site = _site()
        home = _home(site, key)
    if isinstance(home, str):
        fail(home, FOUND)
    with told_plainly():
        made = together([gathered_for(site, home, size)], sheet)
    if made.pdf is None:
        reasons = "\n".join(f"- {reason}" for reason in made.refused[0].reasons)
        fail(f"The card was not written:\n{reasons}", FOUND)
    try:
        to.parent.mkdir(parents=True, exist_ok=True)
        to.write_bytes(made.pdf)
    except OSError:
        fail(f"Expected to write {to}, but this account cannot. Name another file.")
    typer.echo(f"Wrote {to}.")


def cards(
    to: Annotated[Path, typer.Option(help="One PDF to write, or a folder for numbered ones.")],
    size: Size = "a6",
    sheet: OnSheet = False,
    keys: Annotated[Path | None, typer.Option(help="A file with a home's key on each line; - reads them.")] = None,
    every: Annotated[bool, typer.Option("--all", help="The cards of every home.")] = False,
    changed: Annotated[
        bool, typer.Option("--changed", help="Those of this size that were printed and no longer say what is known.")
    ] = False,
) -> None:
    """Write the cards of many homes as PDF; begun again after an interruption, it carries on."""
    from server.printing import Wanted, print_cards, too_many

    if [every, changed, keys is not None].count(True) != 1:
        fail(
            "Expected --keys with a file of keys, --all for every home, or --changed for those whose card changed. "
            "Name one of the three."
        )
    listed = None if keys is None else tuple(_lines(keys))
    with told_plainly():
        site = _site()
        if listed is not None:
            homes, unknown = _listed(site, listed)
        else:
            homes, unknown = _changed(site, size) if changed else site.store.homes(), []
        wanted = Wanted(homes, size, sheet)
        if refusal := too_many(wanted, to):
            fail(refusal)
        try:
            with typer.progressbar(length=len(homes), label="Cards", file=sys.stderr) as bar:
                refused = print_cards(site, wanted, to, bar.update)
        except OSError:
            fail(f"Expected to write {to}, but this account cannot. Name another place.")
    _report(len(homes), refused, unknown, to)


def _report(homes: int, refused: "tuple[Refusal, ...]", unknown: list[str], to: Path) -> None:
    for line in (*unknown, *(f"{each.key}: {reason}" for each in refused for reason in each.reasons)):
        typer.echo(line)
    written = homes - len(refused)
    many = "1 card" if written == 1 else f"{written} cards"
    typer.echo(f"{many} in {to}." if written else "No card was written.", err=True)
    if refused or unknown:
        raise typer.Exit(FOUND)


def _site() -> "Site":
    from server.opening import open_site

    return open_site(settings(), date.today())


def _home(site: "Site", key: str) -> "Home | str":
    """The home of a key, or why it has none."""
    from kb.home import Home
    from kb.keys import tidy

    home = site.store.home(tidy(key) or "")
    if isinstance(home, Home):
        return home
    what = "a key of no home" if home is None else "a key that was withdrawn"
    return f"Expected the key of a home, found {what}: {key}. Read it again from the card or the list."


def _listed(site: "Site", keys: Sequence[str]) -> "tuple[tuple[Home, ...], list[str]]":
    """The homes that keys open, each once, and what was said of keys that open none."""
    found = [_home(site, key) for key in dict.fromkeys(keys)]
    homes = {home.key: home for home in found if not isinstance(home, str)}
    return tuple(homes.values()), [each for each in found if isinstance(each, str)]


def _changed(site: "Site", size: str) -> "tuple[Home, ...]":
    """The homes whose card of this size was printed and would be another now, refused ones as well, to be told."""
    from server.cards import changed_cards

    return tuple(each.home for each in changed_cards(site) if each.printed.size == size)


def _lines(keys: Path) -> Iterator[str]:
    try:
        text = sys.stdin.read() if str(keys) == "-" else keys.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError):
        fail(f"Expected a file of keys at {keys}, found none that can be read. Name another file.")
    yield from (line.strip() for line in text.splitlines() if line.strip())
