"""An author's file as text, and places in it."""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Span:
    """A stretch of a file. Lines and columns count from 1, in characters; the end is exclusive.

    `file` is the path relative to the content folder, with forward slashes.
    """

    file: str
    line: int
    column: int
    end_line: int
    end_column: int

    @classmethod
    def of_file(cls, file: str) -> Span:
        """The first character of a file, for what concerns it as a whole."""
        return cls(file=file, line=1, column=1, end_line=1, end_column=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A file's text with its line starts; `text` has no byte order mark and only line feeds."""

    file: str
    text: str
    starts: tuple[int, ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        starts = [0]
        at = self.text.find("\n")
        while at >= 0:
            starts.append(at + 1)
            at = self.text.find("\n", at + 1)
        object.__setattr__(self, "starts", tuple(starts))

    @classmethod
    def from_bytes(cls, file: str, data: bytes) -> Source:
        """Decode UTF-8, dropping a byte order mark and turning CRLF and CR into LF.

        Raises UnicodeDecodeError where the bytes are not UTF-8.
        """
        text = data.decode("utf-8-sig").replace("\r\n", "\n").replace("\r", "\n")
        return cls(file=file, text=text)

    def position(self, offset: int) -> tuple[int, int]:
        """Line and column, both from 1, of a character offset from 0."""
        line = bisect_right(self.starts, offset)
        return line, offset - self.starts[line - 1] + 1

    def offset(self, line: int, column: int) -> int:
        """The character offset of a line and column; the inverse of `position`."""
        return self.starts[line - 1] + column - 1

    def span(self, start: int, end: int) -> Span:
        """The span between two character offsets, end exclusive."""
        line, column = self.position(start)
        if line == len(self.starts) or end < self.starts[line]:  # most end in the line they begin in
            return Span(
                file=self.file, line=line, column=column, end_line=line, end_column=column + end - start
            )
        end_line, end_column = self.position(end)
        return Span(file=self.file, line=line, column=column, end_line=end_line, end_column=end_column)

    def line(self, number: int) -> str:
        """The text of a line counted from 1, without its line end; empty past the end of the file."""
        if not 1 <= number <= len(self.starts):
            return ""
        start = self.starts[number - 1]
        end = self.starts[number] - 1 if number < len(self.starts) else len(self.text)
        return self.text[start:end]
