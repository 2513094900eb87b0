import pytest

from kb.asking import asked


@pytest.mark.parametrize(
    ("sentence", "parts"),
    [
        ("Press reset once.", ["press reset once"]),
        ("Turn the boiler off, then wait.", ["turn the boiler off", "wait"]),
        ("You can turn the dial.", ["turn the dial"]),
        ("You may now turn the dial.", ["turn the dial"]),
        ("It is safe to turn the dial.", ["turn the dial"]),
        ("Then, if you can, gently turn the dial.", ["turn the dial"]),
        ("Do not forget to turn the dial.", ["turn the dial"]),
        ("The dial can be turned off.", ["have the dial turned off"]),
        ("Once you have turned the dial, wait.", ["turned the dial", "wait"]),
        ("Turn the dial, not the knob.", ["turn the dial"]),
        ("Press it without turning the dial.", ["press it"]),
        ("Wait until it is cold and turn the dial.", ["wait", "turn the dial"]),
        ("Ask an engineer to turn the dial.", ["ask an"]),
    ],
)
def test_a_request_is_read_from_its_verb_on(sentence: str, parts: list[str]) -> None:
    assert list(asked(sentence)) == parts


@pytest.mark.parametrize(
    "sentence",
    [
        "Never turn the dial.",
        "Do not press, turn or pull the dial.",
        "Never press the button or turn the dial.",
        "You must not turn the dial.",
        "You can't turn the dial.",
        "The engineer turns the dial.",
        "An engineer may turn the dial and press the button.",
        "The dial can be turned by an engineer.",
        "Have you turned the dial?",
        "Did you turn the dial and press the button?",
        "I turned the dial",
        "The dial is round.",
        "",
    ],
)
def test_a_prohibition_or_a_description_asks_for_nothing(sentence: str) -> None:
    assert list(asked(sentence)) == []


def test_a_prohibition_does_not_reach_over_and() -> None:
    assert list(asked("Do not wait and press reset.")) == ["press reset"]
