"""Libraries that change: a shelf of articles as plain values, edits of it by chance, and the library made of it."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from hypothesis import strategies as st

from kb.article import Audience, Step
from kb.library import Library, build
from tests.builders import DANGER, ENDS, TRIED, article, region

ENDING = "ends.md#call-us"
ENGINEERS = "\n## For the engineer\n\n### Measure\n\n- [Good](ends.md#job-closed)\n"


@dataclass(frozen=True)
class Written:
    """A step: its title, its answers' words, and how often it may be tried where that is limited."""

    title: str
    answers: tuple[str, ...]
    at_most: int = 0


@dataclass(frozen=True)
class Shelf:
    """Two articles, each a row of steps; the last answer of each step ends the walk, the others lead to the next.

    The steps of the second come after those of the first.
    """

    first: tuple[Written, ...]
    second: tuple[Written, ...] = ()
    danger: str = DANGER

    @property
    def steps(self) -> tuple[Written, ...]:
        return (*self.first, *self.second)

    def with_steps(self, first: tuple[Written, ...], second: tuple[Written, ...]) -> "Shelf":
        return replace(self, first=first or (Written("Any change?", ("Yes", "No")),), second=second)

    @property
    def library(self) -> Library:
        faults = {"first": self.first, **({"second": self.second} if self.second else {})}
        texts = {name: self._text(name, steps) for name, steps in faults.items()}
        read = [article(name, text, category=name) for name, text in texts.items()]
        shared = [article("danger", self.danger, "danger"), article("tried", TRIED, "shared")]
        return build([*shared, article("ends", ENDS, "ends"), *read], [region()])

    def _text(self, name: str, steps: tuple[Written, ...]) -> str:
        rest = "second.md" if name == "first" and self.second else ENDING
        onward = [*(f"#{anchor(step.title)}" for step in steps[1:]), rest]
        parts = [_step(step, then) for step, then in zip(steps, onward, strict=True)]
        return f"# Article {name}\n\n## For the household\n{''.join(parts)}{ENGINEERS}"


def anchor(title: str) -> str:
    return title.lower().replace(" ", "-").replace("?", "")


def _step(step: Written, onward: str) -> str:
    braces = f'{{tries=reset at-most={step.at_most} then="{ENDING}"}}\n' if step.at_most else ""
    # What is tried may be tried again; everything else goes on.
    again = f"#{anchor(step.title)}" if step.at_most else onward
    leads = [onward, *[again] * (len(step.answers) - 2), ENDING]
    lines = [f"- [{words}]({target})" for words, target in zip(step.answers, leads, strict=True)]
    return f"\n{braces}### {step.title}\n\n" + "\n".join(lines) + "\n"


WORDS = ("Yes", "No", "Warm", "Cold", "Red", "Green", "Loud", "Still", "Wet", "Dry")


@st.composite
def written(draw: st.DrawFn, name: str, limited: bool = False) -> Written:
    answers = draw(st.lists(st.sampled_from(WORDS), min_size=3, max_size=4, unique=True))
    return Written(f"Question {name}?", tuple(answers), draw(st.integers(1, 3)) if limited else 0)


@st.composite
def shelves(draw: st.DrawFn, limited: bool = False) -> Shelf:
    names = "ABCDEF"[: draw(st.integers(2, 6))]
    steps = tuple(draw(written(name, limited and draw(st.booleans()))) for name in names)
    cut = draw(st.integers(1, len(steps)))
    return Shelf(steps[:cut], steps[cut:])


@st.composite
def edited(draw: st.DrawFn, shelf: Shelf, limited: bool = False) -> Shelf:
    """The shelf after one to four edits of whatever sort."""
    for number in range(draw(st.integers(1, 4))):
        edit = draw(st.sampled_from([_put_in, _taken_out, _renamed, _reworded, _swapped, _split]))
        shelf = draw(edit(shelf, f"N{number}", limited))
    return shelf


@st.composite
def _put_in(draw: st.DrawFn, shelf: Shelf, name: str, limited: bool) -> Shelf:
    steps, cut = list(shelf.steps), len(shelf.first)
    steps.insert(draw(st.integers(0, len(steps))), draw(written(name, limited and draw(st.booleans()))))
    return shelf.with_steps(tuple(steps[:cut]), tuple(steps[cut:]))


@st.composite
def _taken_out(draw: st.DrawFn, shelf: Shelf, name: str, limited: bool) -> Shelf:
    steps, cut = list(shelf.steps), len(shelf.first)
    gone = draw(st.integers(0, len(steps) - 1))
    del steps[gone]
    cut -= gone < cut
    return shelf.with_steps(tuple(steps[:cut]), tuple(steps[cut:]))


@st.composite
def _renamed(draw: st.DrawFn, shelf: Shelf, name: str, limited: bool) -> Shelf:
    return _with(shelf, place := draw(_places(shelf)), replace(shelf.steps[place], title=f"Question {name} anew?"))


@st.composite
def _reworded(draw: st.DrawFn, shelf: Shelf, name: str, limited: bool) -> Shelf:
    step = shelf.steps[place := draw(_places(shelf))]
    which = draw(st.integers(0, len(step.answers) - 1))
    answers = tuple(f"Else {name}" if number == which else words for number, words in enumerate(step.answers))
    return _with(shelf, place, replace(step, answers=answers))


@st.composite
def _swapped(draw: st.DrawFn, shelf: Shelf, name: str, limited: bool) -> Shelf:
    steps, cut = list(shelf.steps), len(shelf.first)
    one, other = draw(_places(shelf)), draw(_places(shelf))
    steps[one], steps[other] = steps[other], steps[one]
    return shelf.with_steps(tuple(steps[:cut]), tuple(steps[cut:]))


@st.composite
def _split(draw: st.DrawFn, shelf: Shelf, name: str, limited: bool) -> Shelf:
    cut = draw(st.integers(1, len(shelf.steps)))
    return shelf.with_steps(shelf.steps[:cut], shelf.steps[cut:])


def _places(shelf: Shelf) -> st.SearchStrategy[int]:
    return st.integers(0, len(shelf.steps) - 1)


def _with(shelf: Shelf, place: int, step: Written) -> Shelf:
    steps, cut = list(shelf.steps), len(shelf.first)
    steps[place] = step
    return shelf.with_steps(tuple(steps[:cut]), tuple(steps[cut:]))


def signs(*books: Library) -> Mapping[str, set[tuple[str, str, str]]]:
    """What each token of some libraries stands for: mostly one answer, and by a rare chance two."""
    found: dict[str, set[tuple[str, str, str]]] = {}
    for each in books:
        for step in household(each):
            for answer in step.answers:
                found.setdefault(answer.token, set()).add((step.article, step.title, answer.text))
    return found


def household(books: Library) -> list[Step]:
    return [step for step in books.steps() if step.audience is Audience.HOUSEHOLD]
