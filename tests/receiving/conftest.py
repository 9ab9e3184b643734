"""A small archive of a club, and members' material for it."""

from __future__ import annotations

from pathlib import Path

import pytest
from support.submissions import CLUB, lay_out


@pytest.fixture
def club(tmp_path: Path) -> Path:
    return lay_out(tmp_path / "content", CLUB)
