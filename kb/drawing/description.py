"""What does a picture show, for whoever does not see it?"""

from collections.abc import Iterator
from typing import Final

from kb.drawing.picture import Picture, Sort

_ENDS: Final = (Sort.END, Sort.DANGER, Sort.WARNING)


def described(picture: Picture) -> str:
    """The alternative text of a picture."""
    return " ".join(_sentences(picture))


def _sentences(picture: Picture) -> Iterator[str]:
    if not picture.boxes:
        yield "There are no steps."
        return
    begins = next((box for box in picture.boxes if box.begins), picture.boxes[0])
    yield f"A tree of {_count(len(picture.boxes), 'step')}, which begins with “{begins.title}”."
    exits = [each for box in picture.boxes for each in box.exits]
    ends = len({each.title for each in exits if each.sort in _ENDS})
    articles = len({each.title for each in exits if each.sort is Sort.ARTICLE})
    yield f"It leads to {_count(ends, 'end')} and {_count(articles, 'other article')}."
    yield from (f"Nothing leads to “{box.title}”." for box in picture.boxes if box.unreachable)
    yield from (f"“{box.title}”: {mark}." for box in picture.boxes for mark in box.marks)
    yield from (f"{mark}." for mark in picture.marks)


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"
