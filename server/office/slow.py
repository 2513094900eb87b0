"""Which calls were not clear of danger within the first minute: the list behind the share."""

from dataclasses import dataclass
from datetime import datetime
from itertools import islice
from typing import Final

from starlette.responses import Response

from kb.days import said_moment
from kb.figures.figure import Table, csv, written
from kb.figures.slow import slow_table, stuck_most
from kb.figures.weeks import Period, span_of
from kb.figures.words import counted
from server.office.counting import catch_up
from server.office.figure_pages import SlowPage
from server.office.figures import HERE as FIGURES
from server.office.figures import MOST_ROWS, frame_of, period_of, periods_at, step_words, weeks_of
from server.office.room import Room, Ways
from server.staff import Visit
from server.web.pages import PRIVATE, SECURITY, answer

HERE: Final = f"{FIGURES}/slow"


def add(ways: Ways, room: Room) -> None:
    """The list, and the same as a file."""
    slow = _Slow(room)
    ways.shows(HERE, slow.page)
    ways.shows(f"{HERE}.csv", slow.file)


def _moment(written: str) -> str:
    """A moment as the file writes it, in the words of a page."""
    return said_moment(datetime.fromisoformat(written))


@dataclass(frozen=True, slots=True)
class _Slow:
    room: Room

    def page(self, visit: Visit) -> Response:
        """Every such call of a period, the newest first."""
        period = period_of(visit)
        weeks, table, most = self._of(period)
        return answer(
            SlowPage(
                frame=frame_of(self.room, visit),
                periods=periods_at(HERE, period),
                weeks=weeks,
                calls=len(table.rows),
                most=tuple(f"{counted(times, 'call')}: {words}" for words, times in most),
                columns=table.columns,
                rows=tuple((_moment(began), *rest) for began, *rest in islice(written(table), MOST_ROWS)),
                left=max(0, len(table.rows) - MOST_ROWS),
                csv=f"{HERE}.csv?period={period}",
                back=f"{FIGURES}?period={period}#danger",
            )
        )

    def file(self, visit: Visit) -> Response:
        """All of them as comma-separated values."""
        period = period_of(visit)
        _, table, _ = self._of(period)
        kept = f'attachment; filename="danger-slow-{period}.csv"'
        headers = {**SECURITY, "cache-control": PRIVATE, "content-disposition": kept, "x-robots-tag": "noindex"}
        return Response(csv(table), headers=headers, media_type="text/csv; charset=utf-8")

    def _of(self, period: Period) -> tuple[str, Table, tuple[tuple[str, int], ...]]:
        site = self.room.site
        catch_up(site)
        span = span_of(period, self.room.today, site.store.figures.earliest())
        calls = site.store.figures.slow(span)

        def words(step: str) -> str:
            return step_words(site.library, step, alone=True)

        return weeks_of(span), slow_table(calls, site.firm.clock, words), stuck_most(calls, words)
