"""What the pages of the desk are put together from."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Choice:
    """One thing that a key chooses: the key, the words, a hint, and what a form sends for it."""

    key: str
    words: str
    value: str
    hint: str = ""


@dataclass(frozen=True, slots=True)
class Field:
    """Something to write down: its name in the form, its label, what stands there, and the words to choose from."""

    name: str
    label: str
    text: str
    options: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Detail:
    """A name and what is known under it."""

    name: str
    words: str


@dataclass(frozen=True, slots=True)
class Around:
    """What stands around every page of a call.

    `dropped` says how to reach a caller whose line dropped.
    `due_in` are the seconds until gas and alarms are asked about again, negative where nothing is due.
    `id` is new for each page that is shown, so that a form that is sent twice is kept once.
    """

    address: str
    script: str
    style: str
    id: str
    began: str
    seconds: int
    elapsed: str
    holder: str
    mine: bool
    open: bool
    due_in: int
    alert: str
    dropped: str
    caller: str
    ring: tuple[tuple[str, str], ...]
    home: tuple[Detail, ...]
    quoted: tuple[str, ...]
    flags: tuple[Choice, ...]
    faults: tuple[Choice, ...]
    pace: str
    pace_words: str


@dataclass(frozen=True, slots=True)
class Listed:
    """A call in the list."""

    address: str
    key: str
    title: str
    state: str
    elapsed: str
    holder: str
    mine: bool
    dropped: str


@dataclass(frozen=True, slots=True)
class Asking:
    """A household that asked to be called: who, about what, how soon, when it can be reached, since when it waits."""

    address: str
    name: str
    about: str
    pace: str
    reach: str
    since: str


@dataclass(frozen=True, slots=True)
class Due:
    """A household to ask whether it still works."""

    address: str
    id: str
    title: str
    since: str


@dataclass(frozen=True, slots=True)
class Told:
    """An answer that was given, and where its question stands, to be asked again."""

    question: str
    answer: str
    place: int
    known: bool
