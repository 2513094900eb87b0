"""`python -m demo`: load the invented firm, write two cards, serve, and say what to open.

What somebody changed in the demo's homes stays; `--fresh` puts them back as they were.
"""

import argparse
import sys
from collections.abc import Mapping, Sequence
from datetime import date
from pathlib import Path

from demo.load import let_in, load
from demo.year import fill
from kb.card import CardError, Refused, pdf
from kb.home import Home
from kb.library import UnusableFolder
from server.cards import card_for
from server.opening import CannotServe, open_site
from server.serving import PortTaken, listen, serve_on
from server.settings import Settings, WrongSettings
from server.site import Site
from server.store import StoreError
from server.web.static import MissingFont

FINISHED = Path("var/cards")


def main(arguments: Sequence[str] | None = None) -> int:
    """Serve the demo until it is stopped; 2 if it could not begin."""
    asked = _asked(arguments)
    try:
        settings = Settings.read()
        with listen(settings.host, settings.port) as port:
            load(settings.database, asked.fresh)
            site = open_site(settings, date.today())
            fill(site, date.today())
            homes = site.store.homes()
            cards = [written for home in homes[:2] if (written := _card(site, home))]
            _tell(settings, homes, cards, let_in(site.store))
            serve_on(port, site, settings)
    except (WrongSettings, PortTaken, CannotServe, StoreError, UnusableFolder, CardError, MissingFont) as error:
        print(error, file=sys.stderr)
        return 2
    return 0


def _asked(arguments: Sequence[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m demo", description="Serve Tundish with an invented firm.")
    parser.add_argument("--fresh", action="store_true", help="put the demo's homes and people back as they were")
    return parser.parse_args(arguments)


def _card(site: Site, home: Home) -> Path | None:
    made = card_for(site, home)
    if isinstance(made, Refused):
        print(f"No card for {home.key}: {'; '.join(map(str, made.reasons))}", file=sys.stderr)
        return None
    FINISHED.mkdir(parents=True, exist_ok=True)
    path = FINISHED / f"{home.key}.pdf"
    path.write_bytes(pdf(made))
    return path


def _tell(settings: Settings, homes: tuple[Home, ...], cards: list[Path], passwords: Mapping[str, str]) -> None:
    site = f"http://{settings.host}:{settings.port}"
    print(f"\nTundish, with an invented firm.\n\n  The public page   {site}/")
    for home in homes:
        print(f"  A home's page     {site}/h/{home.key}   {home.appliance}")
    for path in cards:
        print(f"  A finished card   {path.resolve()}")
    print(f"\n  The staff sign in {site}/staff/sign-in")
    for name, password in passwords.items():
        print(f"    {name:<15} {password}")
    print("\nStop it with Ctrl-C.", flush=True)


if __name__ == "__main__":
    sys.exit(main())
