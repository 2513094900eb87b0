"""`tundish new`: a skeleton that an author fills in."""

from datetime import date
from pathlib import Path
from typing import Annotated

import typer

from kb.skeletons import KINDS, is_id, skeleton
from server.commands.console import FOUND, Folder, fail, settings, told_plainly

RANGE = "range"


def new(
    kind: Annotated[str, typer.Argument(help="fault, how-to, shared, or range.")],
    id: Annotated[str, typer.Argument(help="Its name, in small letters and dashes, such as slow-hot-water.")],
    articles: Folder = None,
) -> None:
    """Begin an article or a range: write a skeleton for its author to fill in."""
    if kind not in KINDS:
        fail(f"Expected {', '.join(KINDS[:-1])} or {KINDS[-1]}, found {kind!r}. Begin with one of them.")
    if not is_id(id):
        fail(f"Expected a name in small letters, figures and single dashes, such as slow-hot-water, found {id!r}.")
    here = settings()
    folder = here.ranges if kind == RANGE else articles or here.articles
    file = folder / f"{id}.md"
    _refuse_taken(kind, id, file)
    try:
        if kind == RANGE:
            folder.mkdir(parents=True, exist_ok=True)
        with file.open("x", encoding="utf-8") as opened:
            opened.write(skeleton(kind, id, date.today()))
    except OSError:
        fail(f"Expected to write {file}, but this account cannot. Make the folder, or name another.")
    typer.echo(f"Wrote {file}. Open it in your editor, and run `tundish write` to watch it grow.")


def _refuse_taken(kind: str, id: str, file: Path) -> None:
    """End the command if there is such a file, or a fault of this name under another file's name."""
    from kb.library import load

    if file.exists():
        begins = file.read_text(encoding="utf-8", errors="replace").splitlines()
        title = next((line.removeprefix("# ") for line in begins if line.startswith("# ")), "without a title")
        fail(f"Expected a new name, but {file} is there already: {title}. Open that one, or take another name.", FOUND)
    if kind == RANGE or not any(file.parent.glob("*.md")):
        return
    with told_plainly():
        faults = load(file.parent).faults()
    taken = next((each for each in faults if each.header.category == id), None)
    if taken is not None:
        fail(f"Expected a new category, but {taken.file} has {id!r} already: {taken.title}. Take another name.", FOUND)
