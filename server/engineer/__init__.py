"""The engineer's room: visits, handover records, the engineer's part of every article, calculations."""

from fastapi import APIRouter

from server.engineer import cards, onsite, reading, records, signing, starting, visits, working
from server.site import Site

__all__ = ["routes"]


def routes(site: Site) -> APIRouter:
    """Every address of the room."""
    router = APIRouter(include_in_schema=False)
    for part in (starting, visits, onsite, reading, working, cards, signing, records):
        router.include_router(part.routes(site))
    return router
