"""How is a register of homes written as a table that a spreadsheet opens, and read back?

A column is a field of the record, one for each of a list's items; `columns` says all that there are.
"""

from kb.listing.columns import COLUMNS, TEMPLATE, Column
from kb.listing.lines import Listing, Problem, Row
from kb.listing.reading import read_listing
from kb.listing.writing import listing

__all__ = ["COLUMNS", "TEMPLATE", "Column", "Listing", "Problem", "Row", "listing", "read_listing"]
