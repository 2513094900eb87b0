"""region: every region's profile is whole

A region's profile holds the numbers to call there and what its authorities say to do first.
With a number or an order missing, a page about gas or fire would be empty where it matters most.

Give `numbers.emergency` and `numbers.gas`, each with a name, a source and the day it was checked, and an order of
actions each for a smell of gas, carbon monoxide, a fire, a boiling tank and somebody hurt.
See the other profiles for the shape of one.

```good in region
```

```bad 4 in file regions/xb.toml
code = "XB"
```

```bad 1 in region
reviewed = "last winter"
```

```bad 1 in region
colour = "red"
```

```bad 1 in region
name = unquoted
```

```bad 7 in file regions/xb.toml
code = "XB"
name = "Somewhere"
language = "en"
reviewed = 2026-11-20
numbers = {}
```
"""
