"""The household's room: what is wrong, the danger questions, one step at a time, and an end with a number to call."""

from server.household.views import routes

__all__ = ["routes"]
