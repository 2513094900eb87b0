"""What stands in a field, as it is read aloud?"""

from datetime import date

from kb.days import full_day
from kb.handover.field import Field, Kind
from kb.handover.typed import read


def in_words(field: Field, text: str) -> str:
    """The text of a field in words: a choice by its words, a day written out, a figure with its unit."""
    if field.kind in (Kind.CHOICE, Kind.YES_NO, Kind.TICKS):
        chosen = text.split(" ") if field.kind is Kind.TICKS else [text]
        return ", ".join(field.options.get(id, id) for id in chosen if id)
    value = read(field, text)
    meaning = value.meaning if value else None
    if field.kind is Kind.DATE and isinstance(meaning, date):
        return full_day(meaning)
    if field.kind is Kind.FIGURE and isinstance(meaning, float):
        return f"{meaning:g} {field.unit}".strip()
    return text
