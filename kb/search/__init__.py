"""Which article belongs to what somebody says in their own words, and is it a danger?"""

from kb.search.finder import build
from kb.search.found import DANGERS, NO_FACTS, Answered, Finder, Found, Hit, Question, to_json

__all__ = ["DANGERS", "NO_FACTS", "Answered", "Finder", "Found", "Hit", "Question", "build", "to_json"]
