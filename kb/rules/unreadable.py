"""unreadable: every file can be opened and is UTF-8 text

A file that cannot be read is left out, and the articles that lead to it come to nothing.

Save it as UTF-8, which every editor can do, and let the account that runs Tundish read it.

```good in bytes other.md
2d2d2d0a7469746c653a20436166c3a90a6b696e643a207368617265640a72657669657765643a20323032362d31312d32300a736f75726365733a205b636f6d6d6f6e2070726163746963655d0a2d2d2d0a0a2320436166c3a90a
```

```bad 1 in bytes other.md
2d2d2d0a7469746c653a20436166e90a2d2d2d0a
```
"""
