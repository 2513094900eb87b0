"""unreadable: every file can be opened and is UTF-8 text

A file that cannot be read is left out, and the articles that lead to it come to nothing.

Save it as UTF-8, which every editor can do, and let the account that runs Tundish read it.

```good in file other.md
---
title: In the café
kind: how-to
reviewed: 2026-11-20
sources: [common practice]
---

# In the café

## For the household

### Is it warm?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 1 in bytes other.md
2d2d2d0a7469746c653a20436166e90a2d2d2d0a
```
"""
