import socket
from pathlib import Path

from tests.server.commands.running import run


def test_a_taken_port_is_told_with_the_way_out() -> None:
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]

        status, _, aside = run("write", "--port", str(port))

    assert status == 2
    assert f"tundish write --port {port + 1}" in aside


def test_a_folder_that_is_not_there_is_told(tmp_path: Path) -> None:
    status, _, aside = run("write", "--articles", str(tmp_path / "nowhere"))

    assert status == 2
    assert "Expected a folder of articles" in aside
