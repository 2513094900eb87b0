"""The author's room: every article drawn, with what is wrong in it, as it stands in the folder at this moment."""

from server.author.app import create_desk
from server.author.shelf import Shelf
from server.author.watching import watched

__all__ = ["Shelf", "create_desk", "watched"]
