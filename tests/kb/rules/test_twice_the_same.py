from itertools import count
from pathlib import Path

from kb.article import token_of
from kb.library import load
from tests.kb.rules.libraries import found_by, with_household
from tests.kb.rules.samples import Sample, settle


def a_text_with_the_same_sign(anchor: str, sign: str) -> str:
    """Words whose answer, at this danger question, comes to the same three characters."""
    return next(f"word {number}" for number in count() if token_of("danger", anchor, f"word-{number}") == sign)


def test_two_danger_questions_with_one_sign_are_told_apart(tmp_path: Path) -> None:
    text = a_text_with_the_same_sign("is-there-smoke", token_of("danger", "can-you-smell-gas", "yes"))
    danger = f"""
### Can you smell gas?

- [Yes](ends.md#get-out)
- [No](#is-there-smoke)

### Is there smoke?

- [{text}](ends.md#get-out)
- [No](ends.md#carry-on)
"""
    settle(Sample("a-test", 0, "danger", "", danger), tmp_path)

    (finding,) = found_by("twice-the-same", load(tmp_path))

    assert "'Yes'" in finding.found
    assert repr(text) in finding.found


def test_one_answer_in_two_steps_is_no_clash(tmp_path: Path) -> None:
    text = "### A\n\n- [Yes](#b)\n- [No](#b)\n\n### B\n\n- [Yes](ends.md#book-a-visit)\n- [No](ends.md#book-a-visit)\n"

    assert found_by("twice-the-same", with_household(text, tmp_path)) == ()
