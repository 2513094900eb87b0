"""Visits for the tests of the engineer's room."""

from starlette.testclient import TestClient

from kb.visit.job import Job
from server.site import Site
from tests.booking import book
from tests.server.conftest import SEALED
from tests.server.engineer.conftest import csrf, write

ANSWERS = ("A bill comes", "Yes, with a steady blue flame", "Between the marks")
PLAIN = {
    "arrived": "09:10",
    "left": "09:55",
    "cause": "electrode-lead-or-spark-unit",
    "outcome": "fixed",
    "unsafe": "no",
    "phone": "no",
    "shown": "off",
    "card": "right",
    "charge": "chargeable",
}


def booked(site: Site, *answers: str, **changes: object) -> None:
    """A booked call about the sealed home."""
    book(site.store, site.library, SEALED.key, *(answers or ANSWERS), known=SEALED.known, **changes)  # type: ignore[arg-type]


def taken(client: TestClient, **form: str) -> str:
    """The address of a visit that was taken."""
    begun = client.post("/engineer/visits", data={"csrf": csrf(client), "call": "call-1", **form})
    assert begun.status_code == 303
    return str(begun.headers["location"])


def job_of(site: Site, address: str) -> Job:
    found = site.store.jobs.job(address.rsplit("/", 1)[1])
    assert found is not None
    return found


def write_all(client: TestClient, address: str, texts: dict[str, str], start: int = 10) -> list[dict[str, object]]:
    """Send entries as the script does; what the server said to each."""
    return [write(client, address, *each, n).json() for n, each in enumerate(texts.items(), start)]
