"""How a file looks from outside."""

from __future__ import annotations

import os
import socket
from pathlib import Path

import pytest

from guidegen.base.source import Source
from guidegen.base.stamp import TICK_NS, Stamp, kind_of
from guidegen.reading.content.memory import ReadingMemory


def test_a_file_is_settled_once_a_tick_has_gone_by():
    stamp = Stamp(1, 5 * TICK_NS, 5 * TICK_NS, 1)
    assert not stamp.settled(5 * TICK_NS)
    assert not stamp.settled(6 * TICK_NS)
    assert stamp.settled(6 * TICK_NS + 1)


def test_a_text_that_was_read_too_early_is_read_again_however_late():
    """It may have been written once more in the same tick, and look as it did for good."""
    memory, stamp = ReadingMemory(), Stamp(1, 1, 1, 1)
    texts = [Source(file="a.md", text=text) for text in ("one", "two", "three")]
    assert memory.text("a.md", stamp, settled=False, read=lambda _: texts[0]) is texts[0]
    assert memory.text("a.md", stamp, settled=True, read=lambda _: texts[1]) is texts[1]
    assert memory.text("a.md", stamp, settled=True, read=lambda _: texts[2]) is texts[1]


@pytest.mark.skipif(os.name != "posix", reason="made of what POSIX machines have")
def test_what_is_no_ordinary_file_has_a_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    os.mkfifo(tmp_path / "pipe")
    with socket.socket(socket.AF_UNIX) as listening:
        monkeypatch.chdir(tmp_path)  # a socket's address has to be short
        listening.bind("socket")
    named = {name: kind_of(Path(name).stat().st_mode) for name in (".", "pipe", "socket", "/dev/null")}
    assert list(named.values()) == ["a folder", "a pipe", "a socket", "a device"]
