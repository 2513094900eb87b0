"""firm: the firm's file is whole

The firm's file says who is called, when, and which emergency numbers somebody has confirmed for this place.
A wrong field shows somebody in need a number that nobody answers, so every field is looked at and all that is wrong
is told at once.

Give the fields that are named, in the shape of the demo's file.

```good in firm
```

```bad 1 in firm
colour = "red"
```

```bad 2 in firm
zone = "Europe/Nowhere"
phones = []
```

```bad 1 in firm
name = unquoted
```
"""
