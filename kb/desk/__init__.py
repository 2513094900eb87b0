"""A telephone call as the desk leads it: danger, who, what, the script, how soon, and the note it leaves.

A call is the events that were kept of it, in their order; everything else follows from them.
"""
