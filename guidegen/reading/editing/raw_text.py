"""An author's file as its bytes have it, for changes that leave every other byte alone."""

from __future__ import annotations

import re

_LINE_END = re.compile(r"\r\n|\r|\n")
_MARK = "\ufeff"


class RawText:
    """The text of a file with its byte order mark and its own line ends, which a `Source` leaves out."""

    def __init__(self, data: bytes) -> None:
        """Raises UnicodeDecodeError where the bytes are not UTF-8."""
        self.text = data.decode()
        ends = list(_LINE_END.finditer(self.text))
        self._line_end = ends[0][0] if ends else "\n"
        self._starts = [len(_MARK) if self.text.startswith(_MARK) else 0, *(end.end() for end in ends)]

    def offset(self, line: int, column: int) -> int:
        """The offset in this text of a place in its `Source`; lines and columns count from 1."""
        return self._starts[line - 1] + column - 1

    def replace(self, begin: int, end: int, text: str) -> str:
        """Write a text between two offsets, with the file's line ends; returns what stood there.

        Offsets stay right for what lies before, so several changes are made from the last to the first.
        """
        before = self.text[begin:end]
        self.text = self.text[:begin] + text.replace("\n", self._line_end) + self.text[end:]
        return before
