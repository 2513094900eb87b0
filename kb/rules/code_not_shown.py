"""code-not-shown: a code is one that the range's display can show

A display of seven segments has no K, M, V, W or X, and no words.
A code that it cannot show was copied wrongly, or the display is of another kind; either way nobody will ever type it.

Look at the appliance's own instructions again, or name the display `text`.
A display that shows words and no code has a dash in the first column.

```good in range
## Reset

1. Press the button once.

## Filling

Ask the firm.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| P3 | Is cold | cold-boiler | reset | invented |
```

```bad 2 in range
## Reset

1. Press the button once.

## Filling

Ask the firm.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| K3 | Is cold | cold-boiler | reset | invented |
| – | IS BROKEN | engineer-only | engineer | invented |
```
"""
