import socket

import pytest

from server.serving import PortTaken, listen


def test_a_taken_port_is_told_in_one_line_with_the_way_out() -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]

        with pytest.raises(PortTaken) as taken:
            listen("127.0.0.1", port)

    assert "\n" not in str(taken.value)
    assert f"PORT={port + 1}" in str(taken.value)


def test_a_free_port_is_bound() -> None:
    with listen("127.0.0.1", 0) as bound:
        assert bound.getsockname()[1] > 0
