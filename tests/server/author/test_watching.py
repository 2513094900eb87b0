"""The desk notices by itself what is saved."""

import time
from collections.abc import Callable
from pathlib import Path

from server.author import Shelf, watched
from server.author.shelf import Look


def until(shelf: Shelf, so: Callable[[Look], bool]) -> bool:
    """Whether the shelf comes to show this within ten seconds."""
    end = time.monotonic() + 10
    while time.monotonic() < end:
        if so(shelf.look):
            return True
        time.sleep(0.05)
    return False


def test_a_saved_file_is_looked_at_and_proved(shelf: Shelf, folder: Path) -> None:
    with watched(shelf):
        assert until(shelf, lambda look: look.proof is not None)
        (folder / "cold-boiler.md").write_text("half", encoding="utf-8")

        assert until(shelf, lambda look: any(finding.rule == "header" for finding in look.in_articles))
        assert until(shelf, lambda look: look.proof is not None)


def test_what_was_saved_before_the_watch_began_is_not_missed(shelf: Shelf, folder: Path) -> None:
    (folder / "cold-boiler.md").write_text("half", encoding="utf-8")

    with watched(shelf):
        assert until(shelf, lambda look: any(finding.rule == "header" for finding in look.in_articles))


def test_a_failure_is_no_end_of_watching(folder: Path) -> None:
    calls: list[int] = []

    def fail_once(library: object) -> object:
        calls.append(1)
        raise RuntimeError("a fault of ours")

    shelf = Shelf(folder, folder / "ranges", prover=fail_once)  # type: ignore[arg-type]
    with watched(shelf):
        assert until(shelf, lambda look: len(calls) == 1)
        (folder / "cold-boiler.md").write_text("half", encoding="utf-8")

        assert until(shelf, lambda look: len(calls) >= 2)


def test_nothing_is_looked_at_any_more_when_the_desk_is_left(shelf: Shelf, folder: Path) -> None:
    with watched(shelf):
        assert until(shelf, lambda look: look.proof is not None)
    time.sleep(0.7)
    seen = shelf.look

    (folder / "cold-boiler.md").write_text("half", encoding="utf-8")
    time.sleep(0.7)

    assert shelf.look is seen
