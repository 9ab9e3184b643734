"""Where a picture or a link of a guide's Markdown stands in its file."""

from __future__ import annotations

from typing import Any

from guidegen.base.source import Source, Span


class BlockPlaces:
    """Finds the places of inline pieces, block by block in the order of the text."""

    def __init__(self, source: Source, start: int) -> None:
        """`start` is the offset of the line that the Markdown begins with."""
        self.source = source
        self.first = source.position(start)[0]
        self._ends: dict[int, int] = {}

    def lines_of(self, block: Any) -> tuple[int, ...]:
        """The offsets in the file at which each line of a block's text begins.

        The text of a block is that of its lines without what sets them in, so each is looked for in its line. Cells
        of a table share a line: each is looked for behind the one before.
        """
        first = self.first + (block.map[0] if block.map else 0)
        offsets = []
        for number, text in enumerate(block.content.split("\n"), first):
            begin = (
                self.source.starts[number - 1] if number <= len(self.source.starts) else len(self.source.text)
            )
            line = self.source.line(number)
            at = line.find(text, self._ends.get(number, 0)) if text else -1
            if at < 0:
                at = len(line) - len(line.lstrip())
            elif text:
                self._ends[number] = at + len(text)
            offsets.append(begin + at)
        return tuple(offsets)

    def span(self, lines: tuple[int, ...], content: str, start: int, end: int) -> Span:
        """The span of a piece of a block's text; `lines` are from `lines_of`."""
        return self.source.span(self._offset(lines, content, start), self._offset(lines, content, end))

    def _offset(self, lines: tuple[int, ...], content: str, at: int) -> int:
        number = content.count("\n", 0, at)
        offset = lines[number] + at - (content.rfind("\n", 0, at) + 1)
        line = self.source.position(lines[number])[0]
        return min(offset, self.source.starts[line - 1] + len(self.source.line(line)))
