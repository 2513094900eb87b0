"""limit-without-then: what is limited says where to go when its limit is used up

A reset, a top-up or a thaw that was tried as often as is safe is not offered again.
Without `then`, somebody who tried before they rang would stand before a closed door.

Add `then="ends.md#..."` to the braces, in quotes because of the point and the `#`.

```good
{tries=reset at-most=1 then="ends.md#an-engineer-today"}
### Press reset once

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
{tries=reset at-most=1}
### Press reset once

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
{at-most=2 then="https://example.org/"}
### Look once more

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```
"""
