"""Signing in, and what a room needs to know about whoever did: shared by the desk, the engineer and the office."""

from server.staff.door import Door, Visit

__all__ = ["Door", "Visit"]
