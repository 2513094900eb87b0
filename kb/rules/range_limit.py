"""range-limit: a range allows nothing more often than the articles do

Two resets at the most, one for oil, one top-up, two tries at a frozen pipe: what may be tried is limited because the
next try can harm somebody.
An appliance's own instructions may allow less, never more.

Write the smaller number, or leave the limit out.

```good in range-header
limits: {reset: 1, thaw: 2}
```

```bad 2 in range-header
limits: {reset: 3, top-up: 2}
```
"""
