"""The articles that were served before, on both databases."""

from datetime import UTC, datetime, timedelta

from server.store.libraries import MOST

NOON = datetime(2026, 11, 25, 12, tzinfo=UTC)
DAY = timedelta(days=1)


def test_what_was_served_comes_back_word_for_word(store):
    texts = {"cold.md": "# Cold – “as ice”\n", "danger.md": "# Danger\n"}
    assert store.libraries.texts(store.libraries.keep(texts, NOON)) == texts


def test_the_library_that_was_served_last_comes_first(store):
    older = store.libraries.keep({"a.md": "one"}, NOON)
    newer = store.libraries.keep({"a.md": "two"}, NOON + DAY)
    assert store.libraries.fingerprints() == (newer, older)
    assert store.libraries.keep({"a.md": "one"}, NOON + 2 * DAY) == older
    assert store.libraries.fingerprints() == (older, newer)


def test_the_oldest_are_let_go(store):
    kept = [store.libraries.keep({"a.md": str(number)}, NOON + number * DAY) for number in range(MOST + 2)]
    assert store.libraries.fingerprints() == tuple(reversed(kept[2:]))
    assert store.libraries.texts(kept[0]) is None
