"""unknown-brace: what stands in braces is known, and stands where it means something

Braces carry limits, facts and how soon somebody must act.
A misspelt name would be passed over in silence, and with it the limit it was to set.

Put braces straight above a `###` heading, or behind an answer's link, and use only the names and values in the
authors' guide.

```good
{tries=reset at-most=1 then="ends.md#an-engineer-today"}
### Press reset once

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
{trys=reset at-most=1 then="ends.md#an-engineer-today"}
### Look at the light

- [It is on](ends.md#it-is-working-again)
- [It is off](ends.md#an-engineer-today)
```

```bad 2
{fact=colour}
### Look at the light

- [It is on](ends.md#it-is-working-again){pace=today}
- [It is off](ends.md#an-engineer-today)
```

```bad 1
### Look at the light

{at-most=2}
The light is green.

- [It is on](ends.md#it-is-working-again)
- [It is off](ends.md#an-engineer-today)
```

```bad 1 in ends
{pace=soon call=firm}
### A sign of wear

Ring the firm.
```

```bad 1 in file waiting.md
---
title: While you wait
kind: passages
reviewed: 2026-11-20
sources: [common practice]
---

# While you wait

## For the household

{fact=tenure is=castle}
### Keep warm

Close the doors.
```
"""
