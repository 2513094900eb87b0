"""Which answers of a trail still count, with the library and the facts of now?

Between an answer and the day on which it is followed, a step may have been put in, taken out, reworded or moved, and
something may have become known of the home.
So the pieces of a trail are held ready, and each step that waits takes the first of them that is an answer to it.
Whatever nobody takes is told, and a try that was made off the walk counts towards its limit all the same.
"""

from kb.trail.following import Followed, follow_trail, resume
from kb.trail.unused import Unused, gone_words, unmet_words

__all__ = ["Followed", "Unused", "follow_trail", "gone_words", "resume", "unmet_words"]
