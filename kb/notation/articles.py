"""A whole article from its markdown."""

from dataclasses import dataclass, field
from typing import Final

from markdown_it.tree import SyntaxTreeNode

from kb.article import (
    CARD_HEADING,
    CAUSES_HEADING,
    HOUSEHOLD_HEADING,
    Answer,
    Article,
    Audience,
    Cause,
    End,
    Step,
    token_of,
)
from kb.findings import Finding, Place
from kb.header import Header, Kind
from kb.notation import braces
from kb.notation.causes import causes_of
from kb.notation.desk import Desk
from kb.notation.front import read_header
from kb.notation.markdown import block_of, line_of, parse, plain, slug, target_of, written_at
from kb.notation.placeholders import note_placeholders
from kb.prose import Block

_TITLE: Final = "Write one `# Title` under the header, in the same words as its `title`."


@dataclass(slots=True)
class _Section:
    """A heading and the blocks under it, until the next heading."""

    title: str
    audience: Audience
    line: int
    braces: dict[str, str] = field(default_factory=dict)
    nodes: list[SyntaxTreeNode] = field(default_factory=list)


def read_article(file: str, text: str) -> tuple[Article | None, tuple[Finding, ...]]:
    """Read one markdown file, `file` being its name inside the library's folder and its stem the article's id.

    An article comes back whenever its header could be read, with everything in it that could be understood;
    each thing that could not is a finding.
    """
    desk = Desk(file)
    note_placeholders(text, desk)
    root = parse(text)
    header = read_header(root, Header, desk)
    if header is None:
        return None, tuple(desk.findings)
    reader = _Reader(file.removesuffix(".md").rsplit("/", 1)[-1], header, desk)
    article = reader.read(root)
    return article, tuple(desk.findings)


class _Reader:
    def __init__(self, article: str, header: Header, desk: Desk) -> None:
        self.article = article
        self.header = header
        self.desk = desk
        self.steps: list[Step] = []
        self.ends: list[End] = []
        self.causes: tuple[Cause, ...] = ()
        self.card: tuple[Block, ...] = ()
        self.prose: dict[Audience, list[Block]] = {audience: [] for audience in Audience}

    def read(self, root: SyntaxTreeNode) -> Article:
        for section in self._sections(root):
            self._take(section)
        return Article(
            id=self.article,
            file=self.desk.file,
            header=self.header,
            intro=tuple(self.prose[Audience.HOUSEHOLD]),
            notes=tuple(self.prose[Audience.ENGINEER]),
            steps=tuple(self.steps),
            ends=tuple(self.ends),
            causes=self.causes,
            card=self.card,
        )

    def _sections(self, root: SyntaxTreeNode) -> list[_Section]:
        """The file cut at its headings; what stands under no `###` belongs to a section without a title."""
        titles: list[str] = []
        sections = [_Section("", Audience.ENGINEER, 1)]
        for node in root.children:
            match node.tag:
                case "h1":
                    titles.append(plain(node))
                case "h2":
                    household = plain(node) == HOUSEHOLD_HEADING
                    audience = Audience.HOUSEHOLD if household else Audience.ENGINEER
                    sections.append(_Section("", audience, line_of(node)))
                case "h3":
                    written = written_at(node)
                    sections.append(_Section(plain(node), sections[-1].audience, line_of(node), written))
                case "h4" | "h5" | "h6":
                    self.desk.note(line_of(node), "unsupported-markdown", "A heading under a step.", "Use `###`.")
                case _ if node.type != "front_matter":
                    sections[-1].nodes.append(node)
        if titles != [self.header.title]:
            found = f"The title above the text is {titles[0]!r}." if titles else "There is no title above the text."
            self.desk.note(1, "title", found, _TITLE)
        return sections

    def _take(self, section: _Section) -> None:
        if not section.title:
            self.prose[section.audience] += self._blocks(section.nodes)
        elif section.title == CARD_HEADING and section.audience is Audience.HOUSEHOLD:
            self.card = self._blocks(section.nodes)
        elif section.title == CAUSES_HEADING and section.audience is Audience.ENGINEER:
            self._take_causes(section)
        elif self.header.kind is Kind.ENDS:
            self._take_end(section)
        else:
            self._take_step(section)

    def _blocks(self, nodes: list[SyntaxTreeNode]) -> tuple[Block, ...]:
        return tuple(block for node in nodes if (block := block_of(node, self.article, self.desk)))

    def _take_causes(self, section: _Section) -> None:
        for node in section.nodes:
            if node.type == "table":
                self.causes += causes_of(node, self.article, self.desk)
            else:
                self.prose[Audience.ENGINEER] += self._blocks([node])

    def _take_end(self, section: _Section) -> None:
        written, line = section.braces, section.line
        braces.only(written, braces.END, "an end", line, self.desk)
        pace = braces.pace_of(written, line, self.desk)
        call = braces.call_of(written, line, self.desk)
        if pace is None or call is None:
            self.desk.note(
                line,
                "end-without-call",
                f"The end {section.title!r} does not say how soon and whom to call.",
                "Write {pace=… call=…} above it.",
            )
            return
        self.ends.append(
            End(
                article=self.article,
                anchor=slug(section.title),
                title=section.title,
                audience=section.audience,
                body=self._blocks(section.nodes),
                place=Place(self.desk.file, line),
                pace=pace,
                call=call,
                emergency=written.get("emergency"),
            )
        )

    def _take_step(self, section: _Section) -> None:
        written, line, anchor = section.braces, section.line, slug(section.title)
        braces.only(written, braces.STEP, "a step", line, self.desk)
        answers: tuple[Answer, ...] = ()
        nodes = section.nodes
        if nodes and _are_answers(nodes[-1]):
            answers = tuple(answer for item in nodes[-1].children if (answer := self._answer(item, anchor)))
            nodes = nodes[:-1]
        self.steps.append(
            Step(
                article=self.article,
                anchor=anchor,
                title=section.title,
                audience=section.audience,
                body=self._blocks(nodes),
                answers=answers,
                place=Place(self.desk.file, line),
                fact=braces.fact_of(written, line, self.desk),
                reading=braces.reading_of(written, line, self.desk),
                limit=braces.limit_of(written, self.article, line, self.desk),
            )
        )

    def _answer(self, item: SyntaxTreeNode, anchor: str) -> Answer | None:
        link = item.children[0].children[0].children[0]
        line = line_of(item)
        written = written_at(link)
        braces.only(written, braces.ANSWER, "an answer", line, self.desk)
        self._refuse_left(item, line)
        href = str(link.attrs.get("href", ""))
        target = target_of(href, self.article)
        if target is None:
            self.desk.note(
                line,
                "unknown-link",
                f"The answer's link {href!r} does not lead into the library.",
                "Link to `#step`, `article.md`, `article.md#step` or `ends.md#end`.",
            )
            return None
        text = plain(link).strip()
        return Answer(
            text=text,
            target=target,
            token=token_of(self.article, anchor, slug(text)),
            place=Place(self.desk.file, line),
            bounds=braces.bounds_of(written, line, self.desk),
            fact_value=written.get("is"),
        )

    def _refuse_left(self, item: SyntaxTreeNode, line: int) -> None:
        """Note braces behind an answer that the plugin could not read: they would be lost without a word."""
        left = "".join(plain(part) for part in item.children[0].children[0].children[1:])
        if left.strip():
            found = f"Braces are left standing behind an answer: {left.strip()!r}."
            self.desk.note(line, "braces-left", found, "Put values with a point or # in quotes.")


def _are_answers(node: SyntaxTreeNode) -> bool:
    """Whether a list is nothing but links, braces aside: then it holds the answers of its step."""
    return node.type == "bullet_list" and all(_is_answer(item) for item in node.children)


def _is_answer(item: SyntaxTreeNode) -> bool:
    if [child.type for child in item.children] != ["paragraph"]:
        return False
    parts = item.children[0].children[0].children
    # Braces that the plugin could not read stand as text behind the link: still an answer, and the rule
    # braces-left names it.
    return bool(parts) and parts[0].type == "link" and all(part.content.startswith("{") for part in parts[1:])
