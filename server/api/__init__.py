"""The same walks and searches in JSON, for phone systems and other programs."""

from server.api.views import routes

__all__ = ["routes"]
