"""Every address of the office's room."""

from fastapi import APIRouter

from kb.staff import Role
from server.diary import routes as diary
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
    look,
    needs,
    ourselves,
    people,
    selecting,
    slow,
    trails,
)
from server.office.room import ROOM, Room, Ways
from server.site import Site
from server.staff import Door


def routes(site: Site) -> APIRouter:
    """All of the office, and the calendars of the staff."""
    ways = Ways(APIRouter(include_in_schema=False), Door(site))
    room = Room(site)
    homes_of = (finding, lists, selecting, due, cards, look, calendar, people, needs)
    firms = (slow, figures, trails, ourselves, accounts)
    # A form of any name comes last, since addresses are tried in order.
    for part in (*homes_of, *firms, homes, editing):
        part.add(ways, room)
    ways.router.include_router(diary.routes(site, ROOM, Role.OFFICE, "Office"))
    return ways.router
