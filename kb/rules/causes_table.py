"""causes-table: the table of likely causes can be read

The engineer sets off with the part that the likeliest cause asks for.
A row that cannot be read would silently be missing from that list.

Name the columns Cause, Share, Bring, Points to it, Points away.
Give the share in percent.
Write evidence as `[the answer's words](#its-step) ×6`, with a strength over 1 and up to 20, and part two by `;`.

```good in causes
| Worn pump | 60 | pump, seals | [Sound](on-arrival.md#its-case) ×2.5 | |
| Loose wire | 40 | | [Damaged](on-arrival.md#its-case) x6 | [Sound](on-arrival.md#its-case) ×2; |
```

```bad 1 in causes
| Worn pump | most | pump | [Sound](on-arrival.md#its-case) ×2 | |
| Loose wire | 40 | | [Damaged](on-arrival.md#its-case) ×6 | |
```

```bad 3 in causes
| Worn pump | 60 | pump | [Sound](on-arrival.md#its-case) | [Damaged](on-arrival.md#its-case) ×200 |
| Loose wire | 40 | | it rattles | |
```

```bad 1 in engineer
### Look at the pump

- [It turns](ends.md#job-closed)
- [It is stuck](ends.md#job-closed)

### Likely causes

| Cause | Share |
|---|---|
| Worn pump | 100 |
```
"""
