"""HTML as small structures: what a page says, where its links lead."""

from html.parser import HTMLParser


class Page(HTMLParser):
    """The words and links of a page, and the text of each of its elements that has a class."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.links: dict[str, str] = {}
        self.title = ""
        self.heading = ""
        self.words = ""
        self.tags: list[str] = []
        self._open: list[tuple[str, str]] = []
        self.feed(text)
        self.words = " ".join(self.words.split())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        if tag not in {"meta", "link", "input", "br"}:
            self._open.append((tag, dict(attrs).get("href") or ""))
        if tag == "a":
            self._link = ""

    def handle_endtag(self, tag: str) -> None:
        if self._open:
            _, href = self._open.pop()
            if tag == "a":
                self.links[" ".join(self._link.split())] = href

    def handle_data(self, data: str) -> None:
        self.words += data
        tags = [tag for tag, _ in self._open]
        if "a" in tags:
            self._link += data
        if tags[-1:] == ["h1"]:
            self.heading += data
        if tags[-1:] == ["title"]:
            self.title += data
