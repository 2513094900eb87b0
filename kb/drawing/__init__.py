"""How does the tree of an article look, for an author to see what the words say?"""

from collections.abc import Iterable

from kb.article import Article, Audience
from kb.drawing.layout import Block, Wire
from kb.drawing.packing import lay_out_all
from kb.drawing.picture import picture_of
from kb.drawing.setting import BOX, set_box, set_heading, set_way
from kb.drawing.svg import to_svg
from kb.findings import Finding
from kb.library import Library

__all__ = ["draw"]

_NARROWEST = 700.0
_STRAIGHT = 6


def draw(
    article: Article,
    library: Library,
    audience: Audience,
    findings: Iterable[Finding] = (),
    prefix: str = "tree",
    embed: bool = True,
) -> str:
    """The tree of an article for one audience as SVG, with the findings that are known of it.

    With `embed` the picture brings its typeface along and stands by itself.
    """
    picture = picture_of(article, library, audience, findings)
    boxes, ways = tuple(map(set_box, picture.boxes)), tuple(map(set_way, picture.ways))
    order = {box.id: number for number, box in enumerate(picture.boxes)}
    layout = lay_out_all(
        [Block(each.box.id, BOX, each.height, each.beside) for each in boxes],
        [
            Wire(
                each.way.source,
                each.way.target,
                each.width,
                each.height,
                _STRAIGHT if order[each.way.target] == order[each.way.source] + 1 else 1,
            )
            for each in ways
        ],
    )
    heading = set_heading(picture, max(layout.width, _NARROWEST))
    return to_svg(picture, heading, boxes, ways, layout, prefix, embed)
