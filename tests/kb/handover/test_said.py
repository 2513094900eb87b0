from kb.handover.said import MAKE_SAFE, Level, Said, said_of, unanswered
from tests.kb.handover.records import FORM, state

ASKS = Said("gas-rate", ("gas-m3", "gas-s"), Level.QUESTION, "The gas rate is 2.9 kW.")
FINE = Said("drop", ("drop-mbar",), Level.FINE, "The drop is 0.6 mbar.")


def test_a_record_in_order_is_asked_nothing() -> None:
    assert said_of(state(), []) == ()


def test_an_answer_that_is_dangerous_says_to_stop() -> None:
    (said,) = said_of(state(polarity="no"), [])
    assert (said.level, said.fields) == (Level.DANGER, ("polarity",))
    assert said.text.endswith(MAKE_SAFE)


def test_an_answer_out_of_the_usual_is_a_question() -> None:
    (said,) = said_of(state(loop_closed="no"), [])
    assert said.level is Level.QUESTION


def test_a_figure_that_cannot_be_is_a_question_and_what_is_no_figure_is_not() -> None:
    (said,) = said_of(state(fuse_a="30"), [])
    assert "found “30”" in said.text
    assert said_of(state(fuse_a="abc"), []) == ()


def test_danger_comes_first_and_what_is_fine_last() -> None:
    found = said_of(state(polarity="no"), [lambda _: [FINE, ASKS]])
    assert [each.level for each in found] == [Level.DANGER, Level.QUESTION, Level.FINE]


def test_an_answer_belongs_to_the_very_words_of_the_question() -> None:
    other = Said(ASKS.check, ASKS.fields, ASKS.level, "The gas rate is 3.1 kW.")
    texts = {ASKS.answered_in: "Timed twice."}
    assert unanswered([ASKS, FINE], texts) == ()
    assert unanswered([other], texts) == (other,)
    assert unanswered([ASKS], {ASKS.answered_in: "  "}) == (ASKS,)


def test_it_is_shown_with_the_last_field_it_is_about() -> None:
    assert ASKS.section(FORM) == "gas"
    assert Said("dew", ("return-c", "co2-high"), Level.FINE, "").section(FORM) == "heating"
