"""A command as a person runs it: its exit status, what it says, and what it says aside."""

from typer.testing import CliRunner

from server.cli import app


def run(*words: str, typed: str = "") -> tuple[int, str, str]:
    result = CliRunner().invoke(app, list(words), input=typed)
    return result.exit_code, result.stdout, result.stderr
