"""A whole article from its markdown."""

from collections.abc import Sequence

from markdown_it.tree import SyntaxTreeNode

from kb.article import (
    CARD_HEADING,
    CAUSES_HEADING,
    Answer,
    Article,
    Audience,
    Cause,
    End,
    Passage,
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
from kb.notation.sections import Section, links_closing, sections_of
from kb.prose import Block, Target


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
        self.passages: list[Passage] = []
        self.causes: tuple[Cause, ...] = ()
        self.card: tuple[Block, ...] = ()
        self.prose: dict[Audience, list[Block]] = {audience: [] for audience in Audience}

    def read(self, root: SyntaxTreeNode) -> Article:
        for section in sections_of(root, self.header.title, self.desk):
            self._take(section)
        return Article(
            id=self.article,
            file=self.desk.file,
            header=self.header,
            intro=tuple(self.prose[Audience.HOUSEHOLD]),
            notes=tuple(self.prose[Audience.ENGINEER]),
            steps=tuple(self.steps),
            ends=tuple(self.ends),
            passages=tuple(self.passages),
            causes=self.causes,
            card=self.card,
        )

    def _take(self, section: Section) -> None:
        if not section.title:
            self.prose[section.audience] += self._blocks(section.nodes)
        elif section.title == CARD_HEADING and section.audience is Audience.HOUSEHOLD:
            self.card = self._blocks(section.nodes)
        elif section.title == CAUSES_HEADING and section.audience is Audience.ENGINEER:
            self._take_causes(section)
        elif self.header.kind is Kind.ENDS:
            self._take_end(section)
        elif self.header.kind is Kind.PASSAGES:
            self._take_passage(section)
        else:
            self._take_step(section)

    def _blocks(self, nodes: Sequence[SyntaxTreeNode]) -> tuple[Block, ...]:
        return tuple(block for node in nodes if (block := block_of(node, self.article, self.desk)))

    def _take_causes(self, section: Section) -> None:
        for node in section.nodes:
            if node.type == "table":
                self.causes += causes_of(node, self.article, self.desk)
            else:
                self.prose[Audience.ENGINEER] += self._blocks([node])

    def _take_end(self, section: Section) -> None:
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
        nodes, shared = links_closing(section.nodes)
        self.ends.append(
            End(
                article=self.article,
                anchor=slug(section.title),
                title=section.title,
                audience=section.audience,
                body=self._blocks(nodes),
                place=Place(self.desk.file, line),
                pace=pace,
                call=call,
                emergency=written.get("emergency"),
                shares=tuple(target for item in shared if (target := self._target(item, "a passage"))),
            )
        )

    def _take_passage(self, section: Section) -> None:
        written, line = section.braces, section.line
        braces.only(written, braces.PASSAGE, "a passage", line, self.desk)
        fact = braces.fact_of(written, line, self.desk)
        self.passages.append(
            Passage(
                article=self.article,
                anchor=slug(section.title),
                title=section.title,
                audience=section.audience,
                body=self._blocks(section.nodes),
                place=Place(self.desk.file, line),
                fact=fact,
                values=braces.values_of_fact(written, fact, line, self.desk),
            )
        )

    def _take_step(self, section: Section) -> None:
        written, line, anchor = section.braces, section.line, slug(section.title)
        braces.only(written, braces.STEP, "a step", line, self.desk)
        nodes, closing = links_closing(section.nodes)
        answers = tuple(answer for item in closing if (answer := self._answer(item, anchor)))
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
        target = self._target(item, "an answer")
        if target is None:
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

    def _target(self, item: SyntaxTreeNode, what: str) -> Target | None:
        href = str(item.children[0].children[0].children[0].attrs.get("href", ""))
        target = target_of(href, self.article)
        if target is None:
            self.desk.note(
                line_of(item),
                "unknown-link",
                f"The link {href!r} of {what} does not lead into the library.",
                "Link to `#step`, `article.md`, `article.md#step` or `ends.md#end`.",
            )
        return target

    def _refuse_left(self, item: SyntaxTreeNode, line: int) -> None:
        """Note braces behind an answer that the plugin could not read: they would be lost without a word."""
        left = "".join(plain(part) for part in item.children[0].children[0].children[1:])
        if left.strip():
            found = f"Braces are left standing behind an answer: {left.strip()!r}."
            self.desk.note(line, "braces-left", found, "Put values with a point or # in quotes.")
