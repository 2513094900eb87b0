"""Are all finished calls and closed jobs counted, so that the figures may be shown?"""

from typing import Final

from kb.facts import NOTHING_KNOWN
from kb.figures.finished import call_row, job_row
from kb.figures.rows import CallRow
from kb.home import Home
from server.site import Site
from server.store.figures import Waiting

MOST: Final = 200
"""How many calls and jobs are counted before a page is shown; what is left waits for the next page."""


def catch_up(site: Site, most: int = MOST) -> int:
    """Count the calls and jobs that were closed since the last time, and say how many they were."""
    figures, library, clock = site.store.figures, site.library, site.firm.clock
    calls = [row for each in figures.waiting(most) if (row := _call(site, each))]
    figures.add_calls(calls)
    waiting = [(each, site.store.jobs.job(each.id)) for each in figures.waiting_jobs(most)]
    jobs = [done for each, job in waiting if job and (done := job_row(library, job, clock, each.home))]
    figures.add_jobs(jobs)
    return max(len(calls), len(jobs))


def _call(site: Site, waiting: Waiting) -> CallRow | None:
    kept = site.store.calls.call(waiting.id)
    if kept is None:
        return None
    home = site.store.home(kept.home) if kept.home else None
    known = site.known(home) if isinstance(home, Home) else NOTHING_KNOWN
    return call_row(site.library, kept.id, kept.began, kept.events, site.firm.clock, waiting.home, known, waiting.upto)
