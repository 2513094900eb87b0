"""How long does the office's page take, from the database to the whole page, with every picture drawn anew?

    python -m benchmarks.figures 100000

The calls are invented and lie in one year, so that the page of a year counts all of them.
"""

import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from random import Random
from statistics import median

from starlette.testclient import TestClient

from demo.load import load
from kb.figures.drawing import drawn
from kb.figures.rows import CallRow, JobRow, Stop
from kb.figures.weeks import Period, Week
from kb.library import Library
from kb.staff import Account, Role
from server.app import create_app
from server.opening import open_site
from server.settings import Settings
from server.site import Site
from server.staff.passwords import hashed
from tests.postgres import quick_folder, running

CALLS_BY_DEFAULT = 100_000
CHUNK = 10_000
ASKED = 9
WANTED_S = 1.0
PASSWORD = "kettle lamp orbit moss"


def calls(library: Library, count: int, today: date, homes: Sequence[int]) -> Iterator[CallRow]:
    """Calls all over a year, a third of them about some home."""
    random = Random(1)
    faults = [article for article in library.faults() if article.header.category]
    for number in range(count):
        fault = random.choice(faults)
        began = _moment(random, today)
        yield CallRow(
            id=f"c{number}",
            began=began,
            closed=began + timedelta(minutes=8),
            week=Week.of(began.date()),
            category=fault.header.category or "",
            how=random.choice(("solved", "booked", "booked", "elsewhere")),
            home=random.choice(homes) if number % 3 == 0 else None,
            danger=random.uniform(5, 70),
            back=random.random() < 0.03,
            outdoor=round(random.gauss(8, 6), 1) if number % 4 == 0 else None,
            stops=(Stop(str(random.choice(fault.steps).target), number % 2 == 0),) if number % 3 == 1 else (),
        )


def jobs(library: Library, count: int, today: date, homes: Sequence[int]) -> Iterator[JobRow]:
    """Jobs all over a year with causes and parts of the real articles."""
    random = Random(2)
    faults = [article for article in library.faults() if article.causes]
    for number in range(count):
        fault = random.choice(faults)
        first, second, cause = random.choice(fault.causes), random.choice(fault.causes), random.choice(fault.causes)
        closed = _moment(random, today)
        yield JobRow(
            id=f"j{number}",
            closed=closed,
            week=Week.of(closed.date()),
            category=fault.header.category or "",
            cause=cause.name,
            home=random.choice(homes) if number % 3 == 0 else None,
            expected=(first.name, second.name),
            fixed=random.random() < 0.8,
            minutes=random.randint(20, 120),
            taken=frozenset((*first.bring, *second.bring)),
            used=frozenset(cause.bring[:1]),
        )


def _moment(random: Random, today: date) -> datetime:
    return datetime(today.year, today.month, today.day, tzinfo=UTC) - timedelta(
        minutes=random.randint(1, 358 * 24 * 60)
    )


def fill(site: Site, count: int, today: date) -> None:
    homes = site.store.figures.homes()
    for rows, add in (
        (list(calls(site.library, count, today, homes)), site.store.figures.add_calls),
        (list(jobs(site.library, count * 3 // 10, today, homes)), site.store.figures.add_jobs),
    ):
        for start in range(0, len(rows), CHUNK):
            add(rows[start : start + CHUNK])


@contextmanager
def office(site: Site) -> Iterator[TestClient]:
    site.store.staff.add(Account("Bench", frozenset({Role.OFFICE})), hashed(PASSWORD), datetime.now(UTC))
    with TestClient(create_app(site)) as client:
        client.post("/staff/sign-in", data={"name": "Bench", "password": PASSWORD})
        yield client


def took(client: TestClient, period: Period) -> float:
    """Seconds for a page whose pictures nobody drew before."""
    drawn.cache_clear()
    began = time.perf_counter()
    response = client.get(f"/office/figures?period={period}")
    seconds = time.perf_counter() - began
    assert response.text.count("<svg xmlns") == 9, response.text[:500]
    return seconds


def measure(kind: str, address: str, count: int) -> bool:
    load(address)
    today = date.today()
    site = open_site(replace(Settings.read({}), database=address), today)
    fill(site, count, today)
    good = True
    with office(site) as client:
        first = took(client, Period.YEAR)
        print(f"{kind}: {count:,} calls, {count * 3 // 10:,} jobs; the first page {first:.2f} s")
        for period in Period:
            seconds = median(took(client, period) for _ in range(ASKED))
            client.get(f"/office/figures?period={period}")
            began = time.perf_counter()
            client.get(f"/office/figures?period={period}")
            again = time.perf_counter() - began
            print(
                f"{kind}: {period:<10} median {seconds:.2f} s, with pictures kept {again:.2f} s   wanted {WANTED_S} s"
            )
            good = good and seconds < WANTED_S
    site.store.close()
    return good


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else CALLS_BY_DEFAULT
    with quick_folder() as folder, running({"fsync": "off"}) as cluster:
        good = measure("SQLite", f"sqlite:///{folder / 'bench.db'}", count)
        good = measure("PostgreSQL", cluster.address(cluster.create()), count) and good
    if not good:
        sys.exit(f"Expected every page in under {WANTED_S} s.")


if __name__ == "__main__":
    main()
