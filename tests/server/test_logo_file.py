"""The logo's file is read where the firm's file is opened, and told plainly where it cannot be printed."""

from pathlib import Path

import pytest

from demo.load import FIRM
from server.opening import CannotServe, open_firm, open_logo
from server.settings import Settings
from tests.builders import firm


def settings(firm_file: Path) -> Settings:
    return Settings.read({"TUNDISH_FIRM": str(firm_file)})


def test_the_demos_own_logo_is_printed():
    here = settings(FIRM)
    logo, findings = open_logo(here, open_firm(here))
    assert logo is not None
    assert findings == ()


def test_a_firm_that_names_no_logo_has_none(tmp_path):
    assert open_logo(settings(tmp_path / "firm.toml"), firm()) == (None, ())


def test_a_logo_that_is_not_beside_the_firms_file_is_told(tmp_path):
    logo, (finding,) = open_logo(settings(tmp_path / "firm.toml"), firm(logo="logo.svg"))
    assert logo is None
    assert str(finding).startswith("firm.toml:1: firm: There is no file logo.svg that can be read beside firm.toml.")


def test_a_logo_that_cannot_be_printed_is_told_with_its_name(tmp_path):
    (tmp_path / "logo.png").write_bytes(b"GIF89a")
    _, (finding,) = open_logo(settings(tmp_path / "firm.toml"), firm(logo="logo.png"))
    assert str(finding).startswith("logo.png:1: firm: The file is neither a whole SVG nor a PNG.")


def test_a_file_beyond_the_limit_is_not_read_whole(tmp_path):
    (tmp_path / "logo.png").write_bytes(b"\x89PNG\r\n\x1a\n" + b"0" * 300_000)
    _, (finding,) = open_logo(settings(tmp_path / "firm.toml"), firm(logo="logo.png"))
    assert "at most 256 kB" in finding.found


def test_a_pale_colour_keeps_the_firm_from_serving_and_says_its_ratio(tmp_path):
    text = FIRM.read_text().replace("#1d4e5f", "#ffcc00")
    (tmp_path / "firm.toml").write_text(text)
    with pytest.raises(CannotServe, match=r"contrast of 1\.5\d to 1, and words need 4\.5 to 1; choose a darker one"):
        open_firm(settings(tmp_path / "firm.toml"))
