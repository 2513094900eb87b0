"""How does a part of a record become a form, and a form that was sent the same form with its mistakes?

A field's name in a form is its path in the record, so that a mistake finds its field.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from hashlib import blake2b
from typing import Final

from kb.facts import FACTS
from kb.home import PLACES
from kb.register import ALARMS, FUELS, KINDS, NEEDS, ROLES, Mistake

Values = Mapping[str, str]
Options = tuple[tuple[str, str], ...]

GONE: Final = "gone"
"""The last part of the name of the box that takes an item out of its list."""


@dataclass(frozen=True, slots=True)
class Field:
    """One thing to fill in; `kind` is text, day, phone, figure, password, choice or tick.

    The value of a tick is what it sends when it is ticked.
    A `prefix` tells the ids of two forms on one page apart.
    """

    name: str
    label: str
    kind: str = "text"
    value: str = ""
    options: Options = ()
    hint: str = ""
    error: str = ""
    ticked: bool = False
    prefix: str = ""

    @property
    def id(self) -> str:
        """The name as an element's id."""
        return "".join(sign if sign.isalnum() else "-" for sign in self.prefix + self.name).strip("-")


@dataclass(frozen=True, slots=True)
class Group:
    """Fields under one heading."""

    legend: str
    fields: tuple[Field, ...]
    id: str = ""


@dataclass(frozen=True, slots=True)
class Said:
    """One mistake in the list above a form: its words, and the field it leads to, if the form has it."""

    words: str
    to: str = ""


@dataclass(frozen=True, slots=True)
class Form:
    """A part of a record to change: what it is called, which paths it has, and how its fields are laid out."""

    name: str
    title: str
    paths: tuple[str, ...]
    layout: Callable[[Values], Iterable[Group]]
    intro: str = ""

    def of(self, written: Values) -> Values:
        """The fields of a record, or of what was sent, that belong here."""
        return {path: words for path, words in written.items() if path.startswith(self.paths)}


@dataclass(frozen=True, slots=True)
class Filled:
    """A form with something in it, and what is wrong with that."""

    groups: tuple[Group, ...]
    mistakes: tuple[Said, ...] = field(default=())


def filled(form: Form, values: Values, mistakes: Sequence[Mistake] = ()) -> Filled:
    """The form with these values, each mistake at its field and all of them together above."""
    layout = tuple(form.layout(values))
    names = [each.name for group in layout for each in group.fields]
    mistakes = [replace(each, field=_nearest(each.field, names)) for each in mistakes]
    wrong = {each.field: _said(each) for each in mistakes}
    groups = tuple(
        Group(group.legend, tuple(_with(each, values, wrong) for each in group.fields), group.id) for group in layout
    )
    labels = {each.name: (each.id, _called(group, each)) for group in groups for each in group.fields}
    return Filled(groups, tuple(_above(each, labels) for each in mistakes))


def fingerprint(values: Values) -> str:
    """What a form was filled with when it was shown, in short, so that somebody else's change is noticed."""
    kept = repr(sorted((path, words) for path, words in values.items() if words))
    return blake2b(kept.encode(), digest_size=12).hexdigest()


def sent(form: Form, fields: Values) -> Values:
    """What was sent of a form, without the items that were taken out of their lists."""
    gone = tuple(name.removesuffix(GONE) for name, value in fields.items() if name.endswith(f".{GONE}") and value)
    kept = form.of(fields)
    return {
        name: value.strip()
        for name, value in kept.items()
        if not name.startswith(gone or ("\0",)) and not name.endswith(f".{GONE}")
    }


def choices(values: Mapping[str, str], nothing: str = "not known") -> Options:
    """The options of a closed list, nothing first."""
    return (("", nothing), *((value, words[0].upper() + words[1:]) for value, words in values.items()))


def _with(field: Field, values: Values, wrong: Mapping[str, str]) -> Field:
    value, error = values.get(field.name, ""), wrong.get(field.name, "")
    if field.kind == "tick":
        return replace(field, ticked=bool(value), error=error)
    options = field.options
    if field.kind == "choice" and value and value not in {each for each, _ in options}:
        options = (*options, (value, value))
    return replace(field, value=value, options=options, error=error)


def _said(mistake: Mistake) -> str:
    return f"Expected {mistake.expected}, found {mistake.found}. {mistake.next_step}"


def _called(group: Group, field: Field) -> str:
    return f"{group.legend}: {field.label}" if group.legend else field.label


def _nearest(path: str, names: Sequence[str]) -> str:
    """The field of a mistake; of a whole list it is the first one."""
    return path if path in names else next((name for name in names if path and name.startswith(f"{path}[")), path)


def _above(mistake: Mistake, labels: Mapping[str, tuple[str, str]]) -> Said:
    id, label = labels.get(mistake.field, ("", mistake.field))
    words = _said(mistake)
    return Said(f"{label}: {words}" if label else words, id)


FACT_WORDS: Final[Mapping[str, str]] = {
    "fuel": "What the boiler burns",
    "hot-water": "Where hot water comes from",
    "system": "Heating system",
    "flue": "Flue",
    "meter": "Gas meter",
    "filling-loop": "How water is let in",
    "condensate": "Plastic drain pipe",
    "controls": "Controls",
    "tenure": "The home is",
}
"""What each fact is called in the office."""

FACT_HINTS: Final[Mapping[str, str]] = {"tenure": "A home that its owner lets to others is rented"}
"""What helps to choose a fact's value, where its words do not say enough."""

FACT_OPTIONS: Final = {fact: choices(values) for fact, values in FACTS.items()}
PLACE_WORDS: Final = {place: words[0].upper() + words[1:] for place, words in PLACES.items()}
ALARM_OPTIONS: Final = choices(ALARMS, "choose")
FUEL_OPTIONS: Final = choices(FUELS)
KIND_OPTIONS: Final = choices(KINDS)
ROLE_OPTIONS: Final = choices(ROLES)[1:]
NEED_WORDS: Final = {kind: words[0].upper() + words[1:] for kind, words in NEEDS.items()}
