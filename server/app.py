"""The one place that builds the application."""

from fastapi import FastAPI

from server import api, engineer, household
from server.office import figures
from server.site import Site
from server.staff import views as staff
from server.web import static
from server.web.errors import add_errors


def create_app(site: Site) -> FastAPI:
    """The whole application for one firm's site."""
    app = FastAPI(title="Tundish", openapi_url="/api/openapi.json", docs_url=None, redoc_url=None)
    app.include_router(household.routes(site))
    app.include_router(api.routes(site))
    app.include_router(staff.routes(site))
    app.include_router(engineer.routes(site))
    app.include_router(figures.routes(site))
    app.include_router(static.routes())
    add_errors(app, site)
    return app
