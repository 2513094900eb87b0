"""unsupported-markdown: only what can be set on a phone, on paper and in a terminal

An article is shown on a small screen, printed on a card, and read out over the phone.
Tables, pictures, code, headings under a step and lists inside lists cannot be read in all three.

Use paragraphs, lists of one level, `**bold**`, links, and `>` for a caution.
A step that seems to need a list inside a list is two steps.

```good
### Look at the gauge

It is **round**.

1. Look at the needle.
2. Wait for a minute.

> Stop if you see water.

- [It moved](ends.md#book-a-visit)
- [It did not](ends.md#nothing-is-wrong)
```

```bad 1
### Look at the gauge

- Look at the needle.
    - Look at it again.
- Wait.

Then choose.

- [It moved](ends.md#book-a-visit)
- [It did not](ends.md#nothing-is-wrong)
```

```bad 2
### Look at the gauge

![a gauge](gauge.png) *Look* closely.

- [It moved](ends.md#book-a-visit)
- [It did not](ends.md#nothing-is-wrong)
```

```bad 1
### Look at the gauge

#### Before you look

- [It moved](ends.md#book-a-visit)
- [It did not](ends.md#nothing-is-wrong)
```

```bad 1
### Look at the gauge

| Needle | Means |
|---|---|
| low | top up |

- [It moved](ends.md#book-a-visit)
- [It did not](ends.md#nothing-is-wrong)
```
"""
