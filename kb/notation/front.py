"""The header at the top of a file: YAML between two lines of dashes, held to a model."""

from typing import TypeVar

import yaml
from markdown_it.tree import SyntaxTreeNode
from pydantic import BaseModel, ValidationError

from kb.notation.desk import Desk

Model = TypeVar("Model", bound=BaseModel)
_Loader = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def read_header(root: SyntaxTreeNode, model: type[Model], desk: Desk) -> Model | None:
    """The header as a `model`, or None with a finding for everything that is wrong in it."""
    front = root.children[0] if root.children else None
    if front is None or front.type != "front_matter":
        desk.note(1, "header", "There is no header.", "Begin the file with `---`, its fields, and `---`.")
        return None
    try:
        fields = yaml.load(front.content, Loader=_Loader)
    except yaml.YAMLError as error:
        mark = getattr(error, "problem_mark", None)
        line = mark.line + 2 if mark else 1
        desk.note(line, "header", "The header is not readable YAML here.", "Quote words that hold a colon or a brace.")
        return None
    if not isinstance(fields, dict):
        desk.note(1, "header", "The header holds no fields.", "Write a `name: value` a line.")
        return None
    try:
        return model.model_validate(fields)
    except ValidationError as error:
        for wrong in error.errors():
            name = ".".join(str(part) for part in wrong["loc"]) or "header"
            desk.note(
                _line_of_field(front.content, str(wrong["loc"][0]) if wrong["loc"] else ""),
                "header",
                f"The field {name!r}: {_reason(wrong['type'], wrong['msg'])}.",
                "See the table of header fields in the authors' guide.",
            )
        return None


def _reason(kind: str, message: str) -> str:
    match kind:
        case "missing":
            return "is missing"
        case "extra_forbidden":
            return "is not a field of this header"
        case "string_type":
            return "is not read as words; put it in quotes, above all if it holds a colon"
        case _:
            return message.removeprefix("Value error, ").rstrip(".")


def _line_of_field(header: str, name: str) -> int:
    for number, line in enumerate(header.splitlines(), 2):
        if line.startswith(f"{name}:"):
            return number
    return 1
