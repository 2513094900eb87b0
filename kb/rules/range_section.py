"""range-section: a range says how it is reset, how it is filled, and what its display shows

A household with an appliance of this range is shown these words beside the step that asks for them.
A section that is missing leaves them with a button and no instruction; one under another heading is never shown.

Write `## Reset`, `## Filling` and `## Codes`, each once, and nothing else.
Where there is nothing to do, say so: "There is no reset on this appliance."

```good in range
## Reset

1. Press the button once.

## Filling

Ask the firm.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| 11 | Needs no help | no-fault | itself | invented |
```

```bad 3 in range
## Reset

1. Press the button once.

## Tips

Keep it dry.
```

```bad 2 in range
## Reset

1. Press the button once.

## Reset

1. Press it again.

## Codes

| Code | On the panel | Category | How it clears | Source |
|---|---|---|---|---|
| 11 | Needs no help | no-fault | itself | invented |
```
"""
