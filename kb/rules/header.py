"""header: every article begins with a header that can be read

The header says what an article is called, what kind it is, when it was last read by a registered engineer and
where it is from.
A field that is missing, misspelt or of the wrong sort could leave an article unfound, or offered to a home it is
not meant for, so a header with a mistake is not guessed at: the article is left out until it is mended.

Begin the file with `---`, a `name: value` a line, and `---`.
Put words with a colon, a brace or a `#` in quotes.
The table of fields is in the authors' guide.

```good in header
also-said: ["it says: low", needle in the red, keeps going cold]
```

```bad 1 in header
colour: red
```

```bad 2 in header
kind: story
reviewed: last winter
```

```bad 1 in header
applies: {system: [sealed, leaky]}
```

```bad 1 in header
title: It says: low
```

```bad 1 in file plain.md
# A page without a header
```
"""
