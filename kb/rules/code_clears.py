"""code-clears: what a code belongs to and how it clears do not contradict each other

Whoever types a code for an engineer is told not to reset, and whoever types one that is no fault is told that there
is nothing to reset.
A row that says otherwise in its last but one column leaves a household with two answers.

`engineer-only` clears by an `engineer`.
`no-fault` clears by `itself`, or by an `engineer` where a service is asked for.

```good in range
## Reset

1. Press the button once.

## Filling

Ask the firm.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| 11 | Needs a service | no-fault | engineer | invented |
| 12 | Is broken | engineer-only | engineer | invented |
```

```bad 2 in range
## Reset

1. Press the button once.

## Filling

Ask the firm.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| 11 | Needs no help | no-fault | reset | invented |
| 12 | Is broken | engineer-only | reset | invented |
```
"""
