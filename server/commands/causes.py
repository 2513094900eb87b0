"""`tundish causes`: which causes are likely for a fault, and how many closed jobs stand behind each."""

from collections.abc import Iterator, Sequence
from typing import Annotated

import typer

from kb.triage.causes import Chance, chances, to_bring
from kb.triage.jobs import Tally
from server.commands.console import Folder, fail, settings, told_plainly


def causes(
    category: Annotated[str, typer.Argument(help="The id of a fault, such as low-pressure.")],
    range: Annotated[str, typer.Option(help="The id of a range of appliances; without it all count alike.")] = "",
    articles: Folder = None,
) -> None:
    """Print the likely causes of a fault before anything was answered, with the closed jobs behind them."""
    from kb.library import load
    from server.store import Store

    here = settings()
    with told_plainly():
        library = load(articles or here.articles)
    known = [article.id for article in library.faults() if article.causes]
    if category not in known:
        fail(f"Expected a fault with a table of causes, found {category!r}. There are {', '.join(sorted(known))}.")
    with told_plainly(), Store(here.database) as store:
        tally = store.jobs.tally(category)
    steps = {step.target: step for step in library.steps()}
    found = chances(library.articles[category], steps, {}, tally, range)
    typer.echo("\n".join(shown(library.articles[category].title, found, tally, range)))


def shown(title: str, found: Sequence[Chance], tally: Tally, range: str) -> Iterator[str]:
    """The lines to print: a cause a line, the likeliest first, then what was closed as none of them."""
    here = tally.of_range(range)
    of_range = f", {sum(here.values())} of them of the range {range}" if range else ""
    yield f"{title}: {tally.jobs} closed jobs{of_range}."
    width = max(len(each.cause.name) for each in found)
    for each in found:
        own = f"  {here.get(each.cause.name, 0):4} of the range" if range else ""
        yield f"{each.chance:5.0%}  {each.cause.name:{width}}  {each.jobs:4} jobs{own}"
    for name in sorted(set(tally.causes) - {each.cause.name for each in found}):
        yield f"    -  {name:{width}}  {tally.causes[name]:4} jobs"
    yield f"Bring: {', '.join(to_bring(found))}"
