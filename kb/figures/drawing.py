"""How does a figure look on calm paper, in one ink, without colour?"""

from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import Final

from kb.drawing.letters import width, wrapped
from kb.figures.figure import ENOUGH, Bars, Figure, Panel, Trend, Weekly, percent
from kb.figures.matrix_drawing import draw_matrix
from kb.figures.sheet import FAINT, SIZE, SMALL, SOFT, WIDTH, Dot, Rect, Sheet, one_at_a_time

KEPT: Final = 64
"""How many pictures are kept: the pages of seven periods."""

_LABELS: Final = 104.0
_RIGHT: Final = WIDTH - 50.0
_ROW: Final = 34.0
_BAR: Final = 25.0
_MARK: Final = 20.0
_PANEL: Final = 96.0
_THICK: Final = 15.0
_LINE: Final = 15.5


@lru_cache(maxsize=KEPT)
def drawn(figure: Figure) -> str:
    """The picture as SVG to stand in a page; kept by its series, and the same for the same."""
    chart = figure.chart
    with one_at_a_time():
        if isinstance(chart, Weekly):
            sheet = _weekly(figure.name, chart)
        elif isinstance(chart, Trend):
            sheet = _trend(figure.name, chart)
        elif isinstance(chart, Bars):
            sheet = _bars(figure.name, chart)
        else:
            sheet = draw_matrix(figure.name, chart)
        return sheet.svg(figure.title, figure.description)


def _weekly(name: str, chart: Weekly) -> Sheet:
    bottom = _MARK + _ROW * len(chart.rows)
    sheet = Sheet(name, bottom + 20)
    weeks = len(chart.marked)
    step = (_RIGHT - _LABELS) / max(weeks, 1)
    marked = [(_LABELS + n * step, _MARK - 4, step, bottom - _MARK + 4) for n, each in enumerate(chart.marked) if each]
    sheet.boxes(marked, fill=None, edge=FAINT, hatch="/////", width=0)
    if marked:
        _mark(sheet, chart.mark)
    for number, row in enumerate(chart.rows):
        base = _MARK + _ROW * (number + 1) - 3
        highest = max(row.values, default=0)
        tall = [_BAR * value / highest if highest else 0.0 for value in row.values]
        gap = 0.22 * step if weeks <= 60 else 0.0
        bars = [(_LABELS + n * step + gap / 2, base - high, step - gap, high) for n, high in enumerate(tall) if high]
        sheet.boxes(bars)
        sheet.line([(_LABELS, base), (_RIGHT, base)], width=0.7, colour=SOFT)
        _label(sheet, row.label, base - _BAR / 2, _LABELS - 8, strong=number == 0)
        sheet.text(WIDTH, base - _BAR + 5, f"peak {highest}", size=SMALL, at="right", colour=SOFT)
        sheet.text(WIDTH, base - 6, f"{row.total:,}", size=SMALL, at="right", strong=True)
    _dates(sheet, [(_LABELS + at * step, words) for at, words in chart.ticks], bottom + 8, bottom - 3)
    return sheet


def _mark(sheet: Sheet, words: str) -> None:
    """What the dotted weeks are, said once above them."""
    sheet.boxes([(_LABELS, 1, 16, 11)], fill=None, edge=FAINT, hatch="/////")
    sheet.text(_LABELS + 21, 7, words, size=SMALL)


def _label(sheet: Sheet, words: str, middle: float, most: float, strong: bool = False) -> None:
    lines = wrapped(words, most, SIZE, strong)[:2]
    for number, line in enumerate(lines):
        sheet.text(0, middle + (number - (len(lines) - 1) / 2) * 13.5, line, strong=strong)


def _dates(sheet: Sheet, ticks: Iterable[tuple[float, str]], y: float, axis: float) -> None:
    last = -100.0
    for x, words in ticks:
        wide = width(words, SMALL)
        at = min(x, WIDTH - wide)
        sheet.line([(x, axis), (x, axis + 4)], width=0.8, colour=SOFT)
        if at >= last + 6:
            sheet.text(at, y, words, size=SMALL, colour=SOFT)
            last = at + wide


def _trend(name: str, chart: Trend) -> Sheet:
    high = _PANEL + 30
    bottom = high * len(chart.panels)
    sheet = Sheet(name, bottom + 16)
    for number, panel in enumerate(chart.panels):
        _panel(sheet, panel, high * number)
    count = len(chart.panels[0].points)
    _dates(sheet, [(_across(at, count), words) for at, words in chart.ticks], bottom + 6, bottom - 10)
    return sheet


def _across(number: int, count: int) -> float:
    left, right = 42.0, WIDTH - 48.0
    return (left + right) / 2 if count < 2 else left + (right - left) * number / (count - 1)


def _panel(sheet: Sheet, panel: Panel, top: float) -> None:
    known = [(n, point) for n, point in enumerate(panel.points) if point.whole]
    most = (
        1.0 if panel.wanted is not None else _rounded(max((point.part / point.whole for _, point in known), default=1))
    )
    least = _rounded_down(min((point.part / point.whole for _, point in known), default=0)) if panel.wanted else 0.0
    base, height = top + _PANEL + 20, _PANEL - 8

    def at(share: float) -> float:
        return base - height * (share - least) / (most - least)

    sheet.text(0, top + 8, panel.label, strong=True)
    for share in (least, (least + most) / 2, most):
        sheet.line([(38, at(share)), (WIDTH - 44, at(share))], width=0.6, colour=FAINT)
        sheet.text(35, at(share), f"{100 * share:.3g}%", size=SMALL, at="right", colour=SOFT)
    if panel.wanted is not None:
        sheet.line([(38, at(panel.wanted)), (WIDTH - 44, at(panel.wanted))], dashed=True)
        sheet.text(WIDTH, at(panel.wanted) - 10, "the aim", size=SMALL, at="right")
    spots = [(_across(n, len(panel.points)), at(point.part / point.whole)) for n, point in known]
    _curve(sheet, spots, [point.whole >= ENOUGH for _, point in known])
    if known:
        last = known[-1][1]
        down = 10 if panel.wanted is not None and last.part / last.whole > 0.99 else 0
        sheet.text(spots[-1][0] + 7, spots[-1][1] + down, percent(last.part, last.whole), strong=True)


def _curve(sheet: Sheet, spots: Sequence[Dot], enough: Sequence[bool]) -> None:
    if len(spots) > 1:
        sheet.line(spots, width=1.6)
    sheet.dots(spot for spot, many in zip(spots, enough, strict=True) if many)
    sheet.dots((spot for spot, many in zip(spots, enough, strict=True) if not many), hollow=True)


def _rounded(share: float) -> float:
    """The next of a few round shares above."""
    return next((each for each in (0.02, 0.05, 0.1, 0.2, 0.4, 0.6, 0.8) if share <= each), 1.0)


def _rounded_down(share: float) -> float:
    return next((each for each in (0.98, 0.95, 0.9, 0.8, 0.6, 0.4, 0.2) if share >= each), 0.0)


def _bars(name: str, chart: Bars) -> Sheet:
    labels = [wrapped(bar.label, WIDTH - 4, SIZE)[:2] for bar in chart.bars]
    key = 26.0 if chart.inner_words and chart.bars else 0.0
    heights = [len(lines) * _LINE + _THICK + 8 for lines in labels]
    sheet = Sheet(name, key + sum(heights) + 2)
    room = WIDTH - 8 - max((width(bar.words, SIZE, True) for bar in chart.bars), default=0)
    highest = max((bar.value for bar in chart.bars), default=0)
    if key:
        _key(sheet, chart)
    y, whole, inner = key, list[Rect](), list[Rect]()
    for bar, lines, high in zip(chart.bars, labels, heights, strict=True):
        for number, line in enumerate(lines):
            sheet.text(0, y + _LINE * (number + 0.5) - 1.5, line)
        top, long = y + _LINE * len(lines) + 1, room * bar.value / highest if highest else 0.0
        whole.append((0.5, top, long, _THICK))
        part = bar.value if bar.inner is None else bar.inner
        inner.append((0.5, top, long * part / bar.value if bar.value else 0.0, _THICK))
        sheet.text(long + 6, top + _THICK / 2, bar.words, strong=True)
        y += high
    sheet.boxes(whole, fill=None, edge=SOFT, hatch="////" if chart.inner_words else "")
    sheet.boxes(each for each in inner if each[2])
    return sheet


def _key(sheet: Sheet, chart: Bars) -> None:
    """What the filled and the hatched part of a bar are, in the order in which they stand."""
    sheet.boxes([(0.5, 4, 18, 11)])
    sheet.text(23, 10, chart.inner_words)
    x = 40 + width(chart.inner_words, SIZE)
    sheet.boxes([(x, 4, 18, 11)], fill=None, edge=SOFT, hatch="////")
    sheet.text(x + 23, 10, chart.outer_words)
