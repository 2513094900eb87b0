"""A visit: what is known before it, what was found on site, and what closing it teaches the firm.

A job is the entries that were written into it, and the latest of a field counts.
What closed jobs teach tells an engineer what to bring; it never reaches a household's walk or a pace.
"""
