from pathlib import Path

import pytest
from starlette.testclient import TestClient

from server.web import static
from server.web.static import MissingFont, fonts, stylesheet


def test_files_are_kept_for_ever_under_addresses_that_change_with_them(client: TestClient) -> None:
    for asset in (stylesheet(), *fonts().values()):
        answer = client.get(asset.address)

        assert answer.content == asset.body
        assert "immutable" in answer.headers["cache-control"]


def test_the_style_sheet_names_the_fonts_as_they_are_served() -> None:
    text = stylesheet().body.decode()

    assert all(font.address in text for font in fonts().values())


def test_a_missing_font_is_told_with_the_next_step(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(static, "_FONTS", tmp_path)
    fonts.cache_clear()

    with pytest.raises(MissingFont, match=r"AtkinsonHyperlegible-Regular\.ttf.*Install the pinned packages again"):
        fonts()
    monkeypatch.undo()
    fonts.cache_clear()
