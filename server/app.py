"""The one place that builds the application."""

from collections.abc import AsyncIterator, Sequence
from contextlib import asynccontextmanager

from fastapi import FastAPI

from server import api, desk, engineer, household
from server import office as bureau
from server.site import Site
from server.staff import views as staff
from server.staff.errors import is_room, staff_error
from server.telling.courier import Courier
from server.telling.office import Office
from server.web import static
from server.web.errors import add_errors


def create_app(site: Site, ways: Sequence[Courier] = ()) -> FastAPI:
    """The whole application for one firm's site; the firm is told of requests to call in these ways."""
    office = Office(site, ways)

    @asynccontextmanager
    async def at_work(_app: FastAPI) -> AsyncIterator[None]:
        with office.at_work():
            yield

    app = FastAPI(title="Tundish", openapi_url="/api/openapi.json", docs_url=None, redoc_url=None, lifespan=at_work)
    app.include_router(household.routes(site, office))
    app.include_router(api.routes(site))
    app.include_router(staff.routes(site))
    app.include_router(desk.routes(site))
    app.include_router(engineer.routes(site))
    app.include_router(bureau.routes(site))
    app.include_router(static.routes())
    add_errors(app, site, is_room, staff_error)
    return app
