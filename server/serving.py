"""The site on a port of this machine."""

import errno
import socket

import uvicorn
from fastapi import FastAPI

from server.app import create_app
from server.opening import remembered
from server.settings import Settings
from server.site import Site
from server.telling.office import couriers


class PortTaken(Exception):
    """Another program listens on the port; the message says the way out."""


def listen(host: str, port: int) -> socket.socket:
    """A socket bound to the port; raises PortTaken before anything is started if it cannot be had."""
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    bound = socket.socket(family, socket.SOCK_STREAM)
    bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        bound.bind((host, port))
    except OSError as error:
        bound.close()
        why = "another program uses it" if error.errno == errno.EADDRINUSE else "this account may not have it"
        raise PortTaken(
            f"Expected to serve on {host}:{port}, but {why}. Choose another: `make demo PORT={port + 1}`, "
            f"or set TUNDISH_PORT."
        ) from None
    return bound


def serve_on(port: socket.socket, site: Site, settings: Settings) -> None:
    """Serve a firm's site on a bound socket until stopped."""
    serve_app(port, create_app(remembered(site, settings), couriers(settings, site.firm, site.now)))


def serve_app(port: socket.socket, app: FastAPI) -> None:
    """Serve an application on a bound socket until stopped."""
    # Every request would cost a tenth of its time to be logged, and an address may hold a home's key.
    config = uvicorn.Config(app, access_log=False, log_level="warning", server_header=False)
    uvicorn.Server(config).run(sockets=[port])
