"""unknown-category: every code of a range leads to an article

A code is only worth typing if somebody learns from it what to do.

Name the file of a fault, or `no-fault` for what is no fault at all, or `engineer-only` for what only an engineer can
act on.

```good in range
## Reset

1. Press the button once.

## Filling

Ask the firm.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| 12 | Is cold | cold-boiler | reset | invented |
| 13 | Is broken | engineer-only | engineer | invented |
```

```bad 1 in range
## Reset

1. Press the button once.

## Filling

Ask the firm.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| 12 | Is cold | frozen-boiler | reset | invented |
```
"""
