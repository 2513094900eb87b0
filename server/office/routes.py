"""Every address of the office's room."""

from fastapi import APIRouter

from server.office import (
    accounts,
    calendar,
    cards,
    due,
    editing,
    figures,
    finding,
    homes,
    lists,
    needs,
    ourselves,
    people,
    selecting,
    trails,
)
from server.office.room import Room, Ways
from server.site import Site
from server.staff import Door


def routes(site: Site) -> APIRouter:
    """All of the office, and the calendars of the staff."""
    ways = Ways(APIRouter(include_in_schema=False), Door(site))
    room = Room(site)
    before = (finding, lists, selecting, due, cards, calendar, people, figures, trails, needs, ourselves, accounts)
    # A form of any name comes last, since addresses are tried in order.
    for part in (*before, homes, editing):
        part.add(ways, room)
    return ways.router
