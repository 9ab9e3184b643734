"""Every diagnostic that reading raises: a case that triggers it, and one that does not."""

from __future__ import annotations

from pathlib import Path

import pytest
from support import golden_cases as golden

from guidegen.reading.content.archive import read_archive

FILES = (
    "ambiguous-paint",
    "bad-colour",
    "bad-date",
    "bad-duration",
    "bad-value",
    "bad-yaml",
    "duplicate-key",
    "duplicate-paint",
    "empty-value",
    "heading-near-a-step",
    "insert-circle",
    "missing-key",
    "missing-photo",
    "mix-circle",
    "photo-without-alt",
    "text-after-hash",
    "two-guides-one-address",
    "unknown-insert",
    "unknown-key",
    "unknown-paint",
)


@pytest.mark.parametrize("name", FILES)
def test_cases(name: str, tmp_path: Path):
    golden.run(golden.DIAGNOSTICS / f"{name}.txt", lambda content: read_archive(content)[1], tmp_path)
