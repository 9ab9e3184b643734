"""Fixtures for the tests of reading."""

from __future__ import annotations

import pytest
from support.content_folders import lay_out
from support.every_key import CASE

from guidegen.model.site import Archive
from guidegen.reading.content.archive import read_archive


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Archive:
    """The content that uses every key, read without a word about it."""
    read, told = read_archive(lay_out(tmp_path_factory.mktemp("content"), CASE))
    assert told == ()
    return read
