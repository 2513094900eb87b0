"""title: one title above the text, in the words of the header

The title in the header is what a household picks from a list; the title above the text is what they then read.
If the two differ, or if there are two titles, somebody in a hurry thinks they took the wrong turning.

Write one `# Title`, straight under the header, in the same words as its `title`.

```good in file other.md
---
title: The boiler hums
kind: how-to
reviewed: 2026-11-20
sources: [common practice]
---

# The boiler hums

## For the household

### Is the hum loud?

- [Yes](ends.md#book-a-visit)
- [No](ends.md#nothing-is-wrong)
```

```bad 1 in file other.md
---
title: The boiler hums
kind: shared
reviewed: 2026-11-20
sources: [common practice]
---

# The boiler whistles
```

```bad 1 in file other.md
---
title: The boiler hums
kind: shared
reviewed: 2026-11-20
sources: [common practice]
---

The title is not here.
```
"""
