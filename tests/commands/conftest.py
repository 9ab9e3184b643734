"""Fixtures for the tests of commands."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.small_palette import PALETTE


@pytest.fixture
def content(tmp_path: Path) -> Path:
    folder = tmp_path / "content"
    folder.mkdir()
    (folder / "palette.yaml").write_text(PALETTE, encoding="utf-8")
    return folder
