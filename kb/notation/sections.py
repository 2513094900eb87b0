"""Where are the headings of an article, what stands under each, and which links close it?"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from markdown_it.tree import SyntaxTreeNode

from kb.article import HOUSEHOLD_HEADING, Audience
from kb.notation.desk import Desk
from kb.notation.markdown import line_of, plain, written_at

_TITLE: Final = "Write one `# Title` under the header, in the same words as its `title`."


@dataclass(slots=True)
class Section:
    """A heading and the blocks under it, until the next heading."""

    title: str
    audience: Audience
    line: int
    braces: dict[str, str] = field(default_factory=dict)
    nodes: list[SyntaxTreeNode] = field(default_factory=list)


def sections_of(root: SyntaxTreeNode, title: str, desk: Desk) -> list[Section]:
    """The file cut at its headings; what stands under no `###` belongs to a section without a title.

    Notes a title above the text that is not the header's, and headings deeper than a step's.
    """
    titles: list[str] = []
    sections = [Section("", Audience.ENGINEER, 1)]
    for node in root.children:
        match node.tag:
            case "h1":
                titles.append(plain(node))
            case "h2":
                household = plain(node) == HOUSEHOLD_HEADING
                audience = Audience.HOUSEHOLD if household else Audience.ENGINEER
                sections.append(Section("", audience, line_of(node)))
            case "h3":
                sections.append(Section(plain(node), sections[-1].audience, line_of(node), written_at(node)))
            case "h4" | "h5" | "h6":
                desk.note(line_of(node), "unsupported-markdown", "A heading under a step.", "Use `###`.")
            case _ if node.type != "front_matter":
                sections[-1].nodes.append(node)
    if titles != [title]:
        found = f"The title above the text is {titles[0]!r}." if titles else "There is no title above the text."
        desk.note(1, "title", found, _TITLE)
    return sections


def links_closing(nodes: Sequence[SyntaxTreeNode]) -> tuple[Sequence[SyntaxTreeNode], Sequence[SyntaxTreeNode]]:
    """What stands under a heading, parted from the items of the list of links that closes it, if one does."""
    if nodes and _are_links(nodes[-1]):
        return nodes[:-1], nodes[-1].children
    return nodes, ()


def _are_links(node: SyntaxTreeNode) -> bool:
    """Whether a list is nothing but links, braces aside: a step's answers, or what an end shares."""
    return node.type == "bullet_list" and all(_is_link(item) for item in node.children)


def _is_link(item: SyntaxTreeNode) -> bool:
    if [child.type for child in item.children] != ["paragraph"]:
        return False
    parts = item.children[0].children[0].children
    # Braces that the plugin could not read stand as text behind the link: still an answer, and the rule
    # braces-left names it.
    return bool(parts) and parts[0].type == "link" and all(part.content.startswith("{") for part in parts[1:])
