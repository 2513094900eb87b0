"""`tundish serve` says at the start where nobody is told of a request to call."""

import subprocess
import sys
from pathlib import Path

import pytest

from server.settings import NOBODY_TOLD, Settings
from server.store.upgrade import migrate
from tests.processes import free_port

MAIL = {"TUNDISH_MAIL_HOST": "mail.heating.example", "TUNDISH_MAIL_TO": "office@heating.example"}


def test_serving_with_nobody_to_tell_is_said_in_plain_words(tmp_path: Path) -> None:
    address = f"sqlite:///{tmp_path / 'homes.db'}"
    migrate(address)
    environment = {"TUNDISH_DATABASE": address, "TUNDISH_PORT": str(free_port()), "PATH": "/usr/bin:/bin"}
    command = [sys.executable, "-m", "server.cli", "serve"]
    with subprocess.Popen(command, env=environment, stderr=subprocess.PIPE, text=True) as serving:
        assert serving.stderr
        said = serving.stderr.readline()
        serving.terminate()
    assert said.strip() == NOBODY_TOLD
    assert "TUNDISH_MAIL_HOST" in said
    assert "TUNDISH_WEBHOOK_URL" in said


@pytest.mark.parametrize(("environment", "tells"), [({}, False), (MAIL, True)])
def test_mail_alone_is_a_way_to_tell(environment: dict[str, str], tells: bool) -> None:
    assert Settings.read(environment).tells is tells
