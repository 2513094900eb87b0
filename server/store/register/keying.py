"""How does a home get a new key when its card is lost?"""

from datetime import date

from sqlalchemy import Connection, insert, update

from kb import keys
from server.store.register.audit import Did, trace
from server.store.register.elsewhere import follow_key
from server.store.register.reading import row_of_home
from server.store.tables import HOMES


def replace_key(connection: Connection, key: str, by: str, today: date, random: keys.Chooser) -> str | None:
    """Give a home a new key and withdraw the old one from this day; None for a key that opens no home."""
    home = row_of_home(connection, key, change=True)
    if home is None:
        return None
    new = keys.make(random)
    connection.execute(update(HOMES).where(HOMES.c.id == home.id).values(key=new))
    # Earlier keys of this home point at its row already, which stays the same.
    withdrawn = {"key": key, "range": "", "appliance": "", "facts": {}, "marks": {}, "limits": {}, "places": {}}
    connection.execute(insert(HOMES).values(**withdrawn, revoked=today, replaced_by=home.id))
    follow_key(connection, key, new)
    trace(connection, by, Did.NEW_KEY, [home.id], ["key"])
    return new
