"""Every address of the office's room."""

from fastapi import APIRouter

from server.office import calendar, cards, due, editing, figures, finding, homes, lists, people, selecting, trails
from server.office.room import Room, Ways
from server.site import Site
from server.staff import Door


def routes(site: Site) -> APIRouter:
    """All of the office, and the calendars of the staff."""
    ways = Ways(APIRouter(include_in_schema=False), Door(site))
    room = Room(site)
    # A form of any name comes last, since addresses are tried in order.
    for part in (finding, lists, selecting, due, cards, calendar, people, figures, trails, homes, editing):
        part.add(ways, room)
    return ways.router
