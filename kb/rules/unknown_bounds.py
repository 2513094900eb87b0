"""unknown-bounds: the bounds of a reading can be read

Bounds decide by themselves which answer a typed figure belongs to.
Bounds that cannot be read would leave the figure without an answer, or with a wrong one.

Give at most one of `from` (at or over) and `above` (over), and at most one of `to` (at or under) and `below`
(under).
Each is `low`, `aim` or `high`, the home's own marks, or a figure; a figure with a point needs quotes.

```good
{reading=pressure}
### Read the gauge

- [Low](ends.md#an-engineer-today){below=low}
- [Right](ends.md#nothing-is-wrong){from=low to="2.5"}
- [High](ends.md#an-engineer-today){above="2.5"}
- [I cannot read it](ends.md#book-a-visit)
```

```bad 2
{reading=pressure}
### Read the gauge

- [Low](ends.md#an-engineer-today){below=bottom}
- [Right](ends.md#nothing-is-wrong){from=low above=aim}
- [I cannot read it](ends.md#book-a-visit)
```
"""
