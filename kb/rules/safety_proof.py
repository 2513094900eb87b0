"""safety-proof: what must never happen, never happens, over every walk there is

Every other rule looks at one thing.
The proof makes the very moves that a walk makes, from every article, for household and engineer, for every
combination of facts that a home may bring along and for whatever was tried before, and looks at each place it comes
to.
It finds a walk that does not end, a household at an engineer's place, a walk without the danger questions, an end
that sends people out without an order of actions, and anything limited that is offered once too often.

The checker runs it beside the rules and says how many walks it walked, for a proof over nothing would be silent too.
Mend what the other rules find first; what is left is either a mistake that only the whole of a walk shows, or a fault
of the walk itself, which should be reported.

```good
{tries=reset at-most=1 then="ends.md#an-engineer-today"}
### Press reset once

- [It runs](ends.md#it-is-working-again)
- [It does not](ends.md#an-engineer-today)
```

```bad 1
### Is the light on?

Look at the front of the boiler.
```

```bad 1
### Is the light on?

- [Yes](#is-the-light-on)
- [No](ends.md#book-a-visit)
```

```bad 1
### Is the light on?

- [Yes](ends.md#no-such-end)
- [No](ends.md#book-a-visit)
```

```bad 1 in danger
```
"""
