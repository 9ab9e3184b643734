"""Colours that cover badly over a dark undercoat."""

from __future__ import annotations

from guidegen.computing.guide.colour_families import Family

# Their pigments let most light through, so that a dark undercoat shows: common practice, no source.
COVERS_BADLY = frozenset({Family.YELLOWS, Family.REDS, Family.ORANGES, Family.WHITES})
