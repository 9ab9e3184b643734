"""Diagnostics on a terminal and in a pipe, and text by cells."""

from __future__ import annotations

import io
import os
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.diagnostics import NO_ALT, OCRE, UNSEALED, text

from guidegen.reporting.cells import fitting, fitting_end, width, wrapped
from guidegen.reporting.terminal import print_diagnostics, width_of


class Terminal(io.TextIOWrapper):
    def __init__(self, encoding: str = "utf-8"):
        super().__init__(io.BytesIO(), encoding=encoding)

    def isatty(self) -> bool:
        return True

    def said(self) -> str:
        self.flush()
        return self.buffer.getvalue().decode(self.encoding)


def printed(stream, environ) -> str:
    print_diagnostics([OCRE, NO_ALT, UNSEALED], shown=lambda file: file, stream=stream, environ=environ)
    return stream.said() if isinstance(stream, Terminal) else stream.getvalue()


def test_colour_only_on_a_terminal(monkeypatch: pytest.MonkeyPatch):
    for name in ("NO_COLOR", "FORCE_COLOR"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("TERM", "xterm-256color")
    plain = printed(io.StringIO(), {})
    assert "\x1b" not in plain
    assert plain == text(OCRE, NO_ALT, UNSEALED)
    coloured = printed(Terminal(), {"TERM": "xterm-256color"})
    assert "\x1b[" in coloured
    bare = "".join(part.partition("m")[2] if i else part for i, part in enumerate(coloured.split("\x1b[")))
    assert bare == plain
    for environ in ({"NO_COLOR": "1"}, {"TERM": "dumb"}):
        assert printed(Terminal(), environ) == plain
    assert "\x1b[" in printed(Terminal(), {"NO_COLOR": ""}), "an empty one does not count (no-color.org)"


def test_rich_is_left_alone_in_a_pipe():
    import subprocess

    program = (
        "import sys\nfrom guidegen.reporting.terminal import print_diagnostics\n"
        "print_diagnostics([], shown=str, stream=sys.stdout, environ={})\nassert 'rich' not in sys.modules"
    )
    subprocess.run([sys.executable, "-c", program], check=True, stdout=subprocess.PIPE)


@pytest.mark.parametrize(("columns", "cells"), [(72, 72), (250, 100), (0, 80)])
def test_as_wide_as_the_terminal_but_not_wider_than_one_reads(
    monkeypatch: pytest.MonkeyPatch, columns: int, cells: int
):
    monkeypatch.setattr(os, "get_terminal_size", lambda number: os.terminal_size((columns, 24)))
    terminal = Terminal()
    terminal.fileno = lambda: 1
    assert width_of(terminal) == cells
    assert width_of(io.StringIO()) == 80


@given(st.text(max_size=60), st.integers(1, 30))
def test_cutting_by_cells(words: str, cells: int):
    for cut in (fitting(words, cells), fitting_end(words, cells)):
        assert width(cut) <= cells
    assert words.startswith(fitting(words, cells))
    assert words.endswith(fitting_end(words, cells))


@given(st.text(max_size=100), st.integers(2, 30))
def test_wrapping_keeps_every_letter(words: str, cells: int):
    lines = wrapped(words, cells)
    assert "".join("".join(lines).split()) == "".join(words.split())
    assert all(width(line) <= cells for line in lines)
