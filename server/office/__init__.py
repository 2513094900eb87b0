"""The office's room: homes and their people, lists, what is due, cards, and everybody's right to be forgotten."""

from server.office.routes import routes

__all__ = ["routes"]
