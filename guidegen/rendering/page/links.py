"""A link as pages show it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Words that lead somewhere; `current` is where the reader is."""

    text: str
    href: str
    current: bool = False
