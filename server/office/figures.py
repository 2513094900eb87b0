"""How it goes: the pictures of calls and jobs, each as a table and as a file too."""

from dataclasses import dataclass, replace
from itertools import islice
from typing import Final

from starlette.responses import Response

from kb.article import Audience
from kb.days import full_day
from kb.figures import figures
from kb.figures.drawing import drawn
from kb.figures.figure import Figure, csv, written
from kb.figures.weeks import PERIODS, Period, Span, span_of
from kb.library import Library
from kb.prose import Target
from server.office.counting import MOST, catch_up
from server.office.figure_pages import Choice, FiguresPage, Picture
from server.office.room import ROOM, Room, Ways
from server.staff import Visit
from server.staff.pages import StaffFrame
from server.web.errors import NotFound
from server.web.pages import PRIVATE, SECURITY, answer
from server.web.static import asset

HERE: Final = f"{ROOM}/figures"
MOST_ROWS: Final = 200
"""How many rows of a table stand in the page; its file has them all."""


def add(ways: Ways, room: Room) -> None:
    """The page of the figures, and each table as a file."""
    figures = _Figures(room)
    ways.shows(HERE, figures.page)
    ways.shows(f"{HERE}/{{name}}.csv", figures.file)


@dataclass(frozen=True, slots=True)
class _Figures:
    room: Room

    def page(self, visit: Visit) -> Response:
        """Every picture of a period."""
        period = period_of(visit)
        left = catch_up(self.room.site) == MOST
        span, found = self._of(period)
        pictures = tuple(_picture(each, period) for each in found)
        return answer(FiguresPage(frame_of(self.room, visit), periods_at(HERE, period), weeks_of(span), left, pictures))

    def file(self, visit: Visit) -> Response:
        """The table of one picture as comma-separated values."""
        period, name = period_of(visit), visit.request.path_params["name"]
        catch_up(self.room.site)
        figure = next((each for each in self._of(period)[1] if each.name == name), None)
        if figure is None:
            raise NotFound
        kept = f'attachment; filename="{figure.name}-{period}.csv"'
        headers = {**SECURITY, "cache-control": PRIVATE, "content-disposition": kept, "x-robots-tag": "noindex"}
        return Response(csv(figure.table), headers=headers, media_type="text/csv; charset=utf-8")

    def _of(self, period: Period) -> tuple[Span, tuple[Figure, ...]]:
        site, today = self.room.site, self.room.today
        store = site.store.figures
        span = span_of(period, today, store.earliest())
        counted = store.counted(span, site.now(), today)
        return span, figures(counted, span, lambda step: step_words(site.library, step))


def frame_of(room: Room, visit: Visit) -> StaffFrame:
    """The frame of a page of figures."""
    around = room.frame(visit)
    return replace(around, stylesheets=(*around.stylesheets, asset("figures.css").address))


def step_words(library: Library, written: str, alone: bool = False) -> str:
    """What a step is called, and in which article unless `alone`; one that is gone goes by its anchor."""
    article, _, anchor = written.partition(".md#")
    step = library.find(Target(article, anchor), Audience.HOUSEHOLD)
    title = step.title if step else anchor.replace("-", " ").capitalize()
    found = library.articles.get(article)
    return f"{title} ({found.title})" if found and not alone else title


def period_of(visit: Visit) -> Period:
    """The period that was asked for; raises NotFound for one that there is not."""
    asked = visit.request.query_params.get("period", Period.TWELVE_WEEKS.value)
    found = next((each for each in Period if each == asked), None)
    if found is None:
        raise NotFound
    return found


def periods_at(address: str, chosen: Period) -> tuple[Choice, ...]:
    """The periods to choose from, for the page at an address."""
    return tuple(Choice(words, f"{address}?period={each}", each is chosen) for each, words in PERIODS.items())


def weeks_of(span: Span) -> str:
    """A span in words."""
    return f"{full_day(span.first.monday)} to this week, which is not over yet"


def _picture(figure: Figure, period: Period) -> Picture:
    return Picture(
        figure.name,
        figure.title,
        figure.says,
        figure.behind,
        figure.few,
        figure.note,
        "" if figure.empty else drawn(figure),
        figure.table.columns,
        tuple(islice(written(figure.table), MOST_ROWS)),
        f"{HERE}/{figure.name}.csv?period={period}",
        max(0, len(figure.table.rows) - MOST_ROWS),
        f"{HERE}/slow?period={period}" if figure.name == "danger" and not figure.empty else "",
    )
