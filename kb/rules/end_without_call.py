"""end-without-call: every end says how soon, and whom to call

An end is the one place where every walk must arrive, and the one thing it is for is to say who comes and when.

Write `{pace=... call=...}` above its heading.

```good in ends
{pace=routine call=firm}
### A sign of wear

Tell the firm at the next visit.
```

```bad 1 in ends
### A sign of wear

Tell the firm at the next visit.
```

```bad 1 in ends
{pace=routine}
### A sign of wear

Tell the firm at the next visit.
```
"""
