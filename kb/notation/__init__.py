"""Markdown to article: what did the author write, and what in it cannot be read?

The only package that knows markdown-it-py.
"""

from kb.notation.articles import read_article
from kb.notation.markdown import slug

__all__ = ["read_article", "slug"]
