"""placeholder: nothing is left of the skeleton that an article began with

`tundish new` writes a skeleton, in which everything that its author has still to say stands between ‹ and ›.
Words that were meant for the author must never reach a household.

Write your own words in the place of each, marks and all.
A heading that changes takes its links along: the part behind `#` is the heading in lower case, with dashes.

```good
### Is the light on?

- [Yes](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 3
### ‹Is the light on?›

‹Where to look.›

- [‹Yes›](ends.md#nothing-is-wrong)
- [No](ends.md#book-a-visit)
```

```bad 1 in range
## Reset

Press the ‹round› button once.

## Filling

There is no filling loop.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
```
"""
