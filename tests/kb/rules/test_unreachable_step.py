from pathlib import Path

from tests.kb.rules.libraries import found_by, with_household


def test_a_step_behind_a_used_up_limit_is_reached(tmp_path: Path) -> None:
    library = with_household(
        """
{at-most=2 then="#call-somebody"}
### Look again

- [Better](ends.md#nothing-is-wrong)
- [The same](#look-again)

### Call somebody

- [Done](ends.md#book-a-visit)
- [Nobody there](ends.md#book-a-visit)
""",
        tmp_path,
    )

    assert found_by("unreachable-step", library) == ()


def test_the_questions_about_earlier_attempts_need_no_link(tmp_path: Path) -> None:
    library = with_household("### Look\n\n- [A](ends.md#book-a-visit)\n- [B](ends.md#book-a-visit)\n", tmp_path)

    assert len(library.articles["tried"].steps) == 3
    assert found_by("unreachable-step", library) == ()


def test_an_engineers_way_to_a_household_step_does_not_reach_it_for_the_household(tmp_path: Path) -> None:
    library = with_household(
        """
### Look

- [A](ends.md#book-a-visit)
- [B](ends.md#book-a-visit)

### Forgotten

- [A](ends.md#book-a-visit)
- [B](ends.md#book-a-visit)
""",
        tmp_path,
    )

    (finding,) = found_by("unreachable-step", library)

    assert "'Forgotten'" in finding.found
    assert "household" in finding.found
