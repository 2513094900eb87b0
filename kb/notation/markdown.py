"""What stands in a markdown text: a tree of blocks, and the words in it."""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from typing import Final

from markdown_it import MarkdownIt
from markdown_it.tree import SyntaxTreeNode
from mdit_py_plugins.attrs import attrs_block_plugin, attrs_plugin
from mdit_py_plugins.front_matter import front_matter_plugin

from kb.findings import Place
from kb.notation.desk import Desk
from kb.prose import Block, Line, Shape, Span, Target

_LINK = re.compile(r"(?:(?P<file>[\w-]+)\.md)?(?:#(?P<anchor>[\w-]+))?")
_OWN_ATTRIBUTES: Final = frozenset({"href", "src", "alt", "title", "start", "style"})
_SHAPES: Final[Mapping[str, Shape]] = {
    "paragraph": Shape.PARAGRAPH,
    "bullet_list": Shape.BULLETS,
    "ordered_list": Shape.NUMBERS,
    "blockquote": Shape.CAUTION,
}


@cache
def _parser() -> MarkdownIt:
    # This preset makes raw HTML plain text, so that the rule raw-html sees it and no page ever does.
    return (
        MarkdownIt("js-default", {"linkify": False, "typographer": False})
        .use(front_matter_plugin)
        .use(attrs_plugin)
        .use(attrs_block_plugin)
    )


def slug(heading: str) -> str:
    """A heading's anchor as code-hosting sites make it: lower case, dashes for spaces, punctuation dropped."""
    return re.sub(r"[^\w\- ]", "", heading.strip().lower()).replace(" ", "-")


def parse(text: str) -> SyntaxTreeNode:
    """The text as a tree of blocks."""
    return SyntaxTreeNode(_parser().parse(text))


def line_of(node: SyntaxTreeNode) -> int:
    """The line a node begins at, from 1; a link has none of its own and takes its block's."""
    above: SyntaxTreeNode | None = node
    while above is not None:
        if above.map is not None:
            return above.map[0] + 1
        above = above.parent
    return 1


def plain(node: SyntaxTreeNode) -> str:
    """The words under a node, without any marks."""
    if node.type in {"softbreak", "hardbreak"}:
        return " "
    if node.children:
        return "".join(plain(child) for child in node.children)
    return node.content


def written_at(node: SyntaxTreeNode) -> dict[str, str]:
    """What an author wrote in braces at a node."""
    return {name: str(value) for name, value in node.attrs.items() if name not in _OWN_ATTRIBUTES}


def target_of(href: str, article: str) -> Target | None:
    """Where a link in this article leads, or None if it is not a link into the library."""
    found = _LINK.fullmatch(href)
    if found is None or not href:
        return None
    return Target(found["file"] or article, found["anchor"] or "")


def block_of(node: SyntaxTreeNode, article: str, desk: Desk) -> Block | None:
    """A block of prose as our own value; a block of a kind that articles may not hold is a finding."""
    shape = _SHAPES.get(node.type)
    if shape is None:
        desk.note(line_of(node), "unsupported-markdown", f"A {node.type.replace('_', ' ')} stands here.", _ALLOWED)
        return None
    refuse_braces(node, desk)
    lines = tuple(_lines(node, article, desk))
    return Block(shape, lines, Place(desk.file, line_of(node)))


_ALLOWED: Final = "Use paragraphs, lists of one level, **bold**, links, or a `>` caution."


def refuse_braces(node: SyntaxTreeNode, desk: Desk) -> None:
    """Note braces where they can mean nothing."""
    for inner in (node, *node.walk(include_self=False)):
        if inner.type not in {"link", "inline"} and written_at(inner):
            written = " ".join(written_at(inner))
            desk.note(
                line_of(inner),
                "unknown-brace",
                f"Braces with {written!r} stand above a {inner.type.replace('_', ' ')}.",
                "Put braces straight above a `###` heading, or behind an answer's link.",
            )


def _lines(node: SyntaxTreeNode, article: str, desk: Desk) -> Iterator[Line]:
    if node.type in {"paragraph", "heading"}:
        yield spans(node, article, desk)
        return
    for child in node.children:
        paragraphs = child.children if child.type == "list_item" else [child]
        if [inner.type for inner in paragraphs] != ["paragraph"]:
            desk.note(line_of(child), "unsupported-markdown", "An item holds more than one line of words.", _ALLOWED)
            continue
        yield spans(paragraphs[0], article, desk)


def spans(block: SyntaxTreeNode, article: str, desk: Desk) -> Line:
    """The words of a paragraph, heading or cell with their style and links."""
    found: list[Span] = []
    for child in block.children[0].children if block.children else ():
        match child.type:
            case "text":
                found.append(Span(child.content))
            case "softbreak" | "hardbreak":
                found.append(Span(" "))
            case "strong":
                found.append(Span(plain(child), strong=True))
            case "link":
                href = str(child.attrs.get("href", ""))
                target = target_of(href, article)
                if target is None:
                    desk.note(
                        line_of(child),
                        "unknown-link",
                        f"The link {href!r} does not lead into the library.",
                        "Link to `#step`, `article.md` or `article.md#step`.",
                    )
                found.append(Span(plain(child), target=target))
            case kind:
                desk.note(line_of(child), "unsupported-markdown", f"A {kind.replace('_', ' ')} stands here.", _ALLOWED)
                found.append(Span(plain(child)))
    return tuple(found)
