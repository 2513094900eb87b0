"""A version a file, named v and four digits and what it brings; the digits are its revision."""
