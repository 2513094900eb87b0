import sys
from concurrent.futures import ThreadPoolExecutor

from kb.search.engine import Page, TextIndex


def index(**pages: tuple[str, str, str]) -> TextIndex:
    return TextIndex(Page(id, title.split(), said.split(), steps.split()) for id, (title, said, steps) in pages.items())


def test_articles_rank_by_the_words_they_share():
    ranks = index(one=("cold pipe", "", ""), two=("warm pipe", "", "cold cold")).rank(["cold", "pipe"], 5)
    assert list(ranks) == ["one", "two"]


def test_a_word_counts_more_in_the_title_than_in_what_is_said_and_least_in_the_steps():
    pages = index(steps=("x", "x", "tap"), said=("x", "tap", "x"), title=("tap", "x", "x"))
    assert list(pages.rank(["tap"], 5)) == ["title", "said", "steps"]


def test_unknown_words_find_nothing():
    assert index(one=("cold pipe", "", "")).rank(["zebra"], 5) == {}


def test_no_word_is_a_command():
    assert index(one=("cold pipe", "", "")).rank(["NOT", "cold*", "title:cold", "?", '"'], 5) == {}


def test_only_so_many_come_back():
    assert len(index(a=("tap", "", ""), b=("tap", "", ""), c=("tap", "", "")).rank(["tap"], 2)) == 2


def test_an_empty_library_can_be_searched():
    assert TextIndex([]).rank(["tap"], 5) == {}


def test_any_number_of_words_may_be_asked():
    known = [f"w{number}" for number in range(500)]
    assert set(index(one=(" ".join(known), "", "")).rank(known, 5)) == {"one"}


def test_searches_at_the_same_time_do_not_disturb_one_another():
    words = [f"w{number}" for number in range(40)]
    pages = index(**{f"p{at}": (" ".join(words[at : at + 4]), "", " ".join(words[::3])) for at in range(36)})
    asked = [words[at : at + 12] for at in range(28)] * 8
    alone = [pages.rank(roots, 5) for roots in asked]
    before = sys.getswitchinterval()
    sys.setswitchinterval(1e-6)
    try:
        with ThreadPoolExecutor(4) as pool:
            together = list(pool.map(lambda roots: pages.rank(roots, 5), asked))
    finally:
        sys.setswitchinterval(before)
    assert together == alone


def test_two_indexes_that_are_built_at_once_share_no_folder(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    with ThreadPoolExecutor(2) as two:
        built = list(two.map(lambda _: TextIndex([Page("a", ["gauge"], [], [])] * 50), range(8)))

    assert all(index.rank(["gauge"], 5) for index in built)
    assert list(tmp_path.iterdir()) == []
