"""How wide text stands on a terminal, and how an author's text is kept from moving what is around it."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Iterator

from guidegen.base.paths import is_unsafe_to_show

ELLIPSIS = "…"
TAB = 4


def harmless(text: str) -> str:
    """The text with every character that could steer a terminal or turn the line round made visible.

    Controls become their pictures (U+2400 on), so that a line end shows as ␊; the others become U+FFFD.
    """
    if text.isascii() and text.isprintable():
        return text
    return "".join(_harmless(c) if is_unsafe_to_show(c) else c for c in text)


def _harmless(character: str) -> str:
    code = ord(character)
    if code < 0x20:
        return chr(0x2400 + code)
    return "␡" if code == 0x7F else "\ufffd"


def with_tabs_widened(text: str) -> str:
    """A tab is as wide as the author's editor makes it; here each counts four cells."""
    return text.replace("\t", " " * TAB)


def width(text: str) -> int:
    """Cells on a terminal: none for marks set over a letter, two for wide and fullwidth characters.

    Unicode Standard Annex 11 (East Asian Width); ambiguous characters count one.
    """
    if text.isascii():
        return len(text)
    return sum(_width(c) for c in text)


def _width(character: str) -> int:
    if character.isascii():
        return 1
    if unicodedata.category(character) in {"Mn", "Me", "Cf"}:
        return 0
    return 2 if unicodedata.east_asian_width(character) in "WF" else 1


def fitting(text: str, cells: int) -> str:
    """As much of the start of the text as stands in that many cells, with the marks over its last letter."""
    used = 0
    for at, character in enumerate(text):
        used += _width(character)
        if used > cells:
            return text[:at]
    return text


def fitting_end(text: str, cells: int) -> str:
    """As much of the end of the text as stands in that many cells; never begins with a mark that lost its letter."""
    used, start = 0, len(text)
    for at in range(len(text) - 1, -1, -1):
        used += _width(text[at])
        if used > cells:
            break
        if _width(text[at]):
            start = at
    return text[start:]


def wrapped(text: str, cells: int) -> list[str]:
    """The text in lines of at most that many cells, broken at spaces, and inside a word only where it must be."""
    lines: list[str] = []
    line = ""
    for word in _pieces(text.split(), cells):
        longer = f"{line} {word}" if line else word
        if line and width(longer) > cells:
            lines.append(line)
            line = word
        else:
            line = longer
    return [*lines, line] if line else lines


def _pieces(words: Iterable[str], cells: int) -> Iterator[str]:
    for word in words:
        rest = word
        while width(rest) > cells:
            piece = fitting(rest, cells) or rest[0]
            yield piece
            rest = rest[len(piece) :]
        if rest:
            yield rest
