"""The demo's firm, read once for a test run: each server process is forked from here, and starts at once."""

import os
from datetime import date
from pathlib import Path

from server.opening import read_site
from server.serving import listen, serve_on
from server.settings import Settings
from server.store import Store

SETTINGS = Settings.read()
SITE = read_site(SETTINGS, date.today())


def serve(database: str, port: int, settings: Settings) -> None:
    """Serve the demo's firm, or another one that the settings name, from a database until killed."""
    nowhere = os.open(Path(os.devnull), os.O_WRONLY)
    os.dup2(nowhere, 1)
    site = SITE if settings == SETTINGS else read_site(settings, date.today())
    with listen("127.0.0.1", port) as bound:
        serve_on(bound, site(Store(database)), settings)
