"""codes-table: the table of a range's codes can be read

A code that cannot be read is a code that somebody types at six in the morning and gets no answer to.

Keep to one table with the columns Code, On the panel, Category, How it clears, Source.
Fill every cell, give each code once, and say of each that it clears by `itself`, by `reset` or by an `engineer`.

```good in range
## Reset

1. Press the button once.

## Filling

Ask the firm.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| 11 | Needs no help | no-fault | itself | invented |
| 12 | Is cold | cold-boiler | reset | invented |
```

```bad 3 in range
## Reset

1. Press the button once.

## Filling

Ask the firm.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| 11 | Needs no help | no-fault | itself | invented |
| 11 | Is cold | cold-boiler | reset | invented |
| 12 | | cold-boiler | reset | invented |
| 13 | Is cold | cold-boiler | magic | invented |
```

```bad 1 in range
## Reset

1. Press the button once.

## Filling

Ask the firm.

## Codes

| Code | Means |
|---|---|
| 11 | Is cold |
```
"""
