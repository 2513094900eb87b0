"""Where findings are gathered while one file is read."""

from kb.findings import Finding, Place


class Desk:
    """The findings of one file, in the order they were met."""

    def __init__(self, file: str) -> None:
        """Begin with nothing found in `file`, named from the library's folder."""
        self.file = file
        self.findings: list[Finding] = []

    def note(self, line: int, rule: str, found: str, remedy: str) -> None:
        """Add a finding."""
        self.findings.append(Finding(Place(self.file, line), rule, found, remedy))
