"""Names in a row, as a sentence has them."""

from __future__ import annotations

from collections.abc import Sequence


def list_of_words(words: Sequence[str], last: str = "and") -> str:
    """`a, b and c`; '' for none."""
    return f"{', '.join(words[:-1])} {last} {words[-1]}" if len(words) > 1 else "".join(words)


def some_of(names: Sequence[str], most: int = 12) -> str:
    """The first names with commas between, and how many more there are."""
    return ", ".join(names[:most]) + (f" and {len(names) - most} more" if len(names) > most else "")
