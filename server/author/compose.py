"""From a look at the folders to what each page shows."""

from collections.abc import Iterable, Sequence
from typing import Final

from kb import rules
from kb.article import Answer, Article, Audience, End, Step
from kb.drawing import draw
from kb.findings import Finding
from kb.library import Library
from server.author import pages, static
from server.author.shelf import Look
from server.web.static import stylesheet

UNSAID: Final = "placeholder"
"""The rule whose findings are no mistakes but the rest of the work."""

_PARTS: Final = {Audience.HOUSEHOLD: "The household’s tree", Audience.ENGINEER: "The engineer’s tree"}


def around(look: Look) -> pages.Around:
    """What stands around a page, with what was run and what was not."""
    count = len(look.library.articles)
    found = _count(len(look.in_articles) + len(look.in_ranges))
    checked = (
        f"Read at {look.at:%H:%M:%S}. Every rule was held against {count} articles and {len(look.ranges)} ranges "
        f"in {look.seconds:.1f} s: {found}."
    )
    return pages.Around(
        stylesheet=stylesheet().address,
        own_stylesheet=static.stylesheet().address,
        script=static.script().address,
        version=look.version,
        checked=checked,
        proved=_proved(look),
    )


def _proved(look: Look) -> str:
    if look.proof is None:
        return "The proof over all walks is running, and has nothing to say yet."
    return f"The proof went over all walks, {look.proof.states:,} states: {_count(len(look.proof.findings))}."


def _count(findings: int) -> str:
    return {0: "no findings", 1: "1 finding"}.get(findings, f"{findings} findings")


def list_page(look: Look, folder: str) -> pages.ListPage:
    """Every article and range, those with findings first."""
    articles = [_entry(look, file) for file in look.files]
    ranges = [
        _listed(family.name, f"{family.id} · range", _of(look.in_ranges, family.file), f"/ranges/{family.id}")
        for family in look.ranges.values()
    ]
    known = {family.file for family in look.ranges.values()}
    unread = sorted({finding.place.file for finding in look.in_ranges} - known)
    ranges += [_listed(file, "range", _of(look.in_ranges, file), f"/ranges/{_stem(file)}") for file in unread]
    return pages.ListPage(around(look), folder, _wrong_first(articles), _wrong_first(ranges))


def _entry(look: Look, file: str) -> pages.Entry:
    findings = look.findings(file)
    article = look.library.articles.get(_stem(file))
    if article is None:
        return _listed(file, "cannot be read as it stands", findings, f"/articles/{_stem(file)}")
    return _listed(article.title, f"{article.id} · {article.header.kind}", findings, f"/articles/{article.id}")


def _listed(title: str, what: str, findings: Sequence[Finding], address: str) -> pages.Entry:
    return pages.Entry(title, what, _count(len(findings)), bool(findings), address)


def _wrong_first(entries: Iterable[pages.Entry]) -> tuple[pages.Entry, ...]:
    return tuple(sorted(entries, key=lambda entry: (not entry.wrong, entry.title)))


def _of(findings: Iterable[Finding], file: str) -> tuple[Finding, ...]:
    return tuple(finding for finding in findings if finding.place.file == file)


def _stem(file: str) -> str:
    return file.removesuffix(".md")


def article_page(look: Look, id: str) -> pages.ArticlePage | None:
    """The page of an article, also of one that cannot be read as it stands; None if there is no such file."""
    file = f"{id}.md" if f"{id}.md" in look.files else id
    article = look.library.articles.get(id)
    findings = look.findings(file)
    if article is None and not findings:
        return None
    return pages.ArticlePage(
        around=around(look),
        file=file,
        title=article.title if article else file,
        findings=told(finding for finding in findings if finding.rule != UNSAID),
        unsaid=told(finding for finding in findings if finding.rule == UNSAID),
        unread=article is None,
        drawings=tuple(_drawings(article, look.library, findings)) if article else (),
        intro=article.intro if article else (),
        steps=tuple(_spoken(article, look.library)) if article else (),
        card=article.card if article else (),
    )


def range_page(look: Look, id: str) -> pages.RangePage | None:
    """The page of a range; None if there is no such file."""
    family, findings = look.ranges.get(id), _of(look.in_ranges, f"{id}.md")
    if family is None and not findings:
        return None
    return pages.RangePage(around(look), f"{id}.md", family.name if family else f"{id}.md", told(findings))


def told(findings: Iterable[Finding]) -> tuple[pages.Told, ...]:
    """Findings in the words of `tundish check`."""
    return tuple(
        pages.Told(finding.place.line, finding.rule, finding.found, finding.remedy, _explained(finding.rule))
        for finding in findings
    )


def _explained(rule: str) -> str:
    return f"/rules/{rule}" if rules.explain(rule) else ""


def _drawings(article: Article, library: Library, findings: Sequence[Finding]) -> Iterable[pages.Drawing]:
    for audience, name in _PARTS.items():
        if article.first(audience) is not None:
            svg = draw(article, library, audience, findings, prefix=audience, embed=False)
            yield pages.Drawing(name, svg, f"/articles/{article.id}/{audience}.svg")


def picture(look: Look, id: str, audience: Audience) -> str | None:
    """The picture of an article alone, which brings its letters along; None if it has no such part."""
    article = look.library.articles.get(id)
    if article is None or article.first(audience) is None:
        return None
    return draw(article, look.library, audience, look.findings(article.file))


def _spoken(article: Article, library: Library) -> Iterable[pages.Spoken]:
    for step in article.steps:
        if step.audience is Audience.HOUSEHOLD:
            answers = tuple(pages.Onward(answer.text, _leads(answer, step, library)) for answer in step.answers)
            yield pages.Spoken(step.anchor, step.title, step.body, answers)


def _leads(answer: Answer, step: Step, library: Library) -> str:
    place = library.find(answer.target, step.audience)
    if place is None:
        return f"nowhere: {answer.target}"
    if isinstance(place, End):
        return f"the end “{place.title}”"
    title = library.articles[place.article].title
    return f"“{place.title}”" if place.article == step.article else f"“{place.title}” in “{title}”"
