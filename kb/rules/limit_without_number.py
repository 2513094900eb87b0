"""limit-without-number: what is limited says how often, and never more than three times

Unburnt fuel, a leak or a burnt wire is behind most things that must be tried again.
Nothing in a home is safe to try more than three times, and most things not more than once or twice.

Say `at-most=1`, `2` or `3` in the braces.

```good
{tries=thaw at-most=2 then="ends.md#an-engineer-today"}
### Warm the frozen pipe

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
{tries=thaw then="ends.md#an-engineer-today"}
### Warm the frozen pipe

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
{tries=thaw at-most=9 then="ends.md#an-engineer-today"}
### Warm the frozen pipe

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
{tries=thaw at-most=some then="ends.md#an-engineer-today"}
### Warm the frozen pipe

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```
"""
