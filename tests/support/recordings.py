"""Recordings, notes and tables of our town with their truth, and the drafts that are made of them."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import Any

import yaml
from support.paths import CASES, CONTENT

from guidegen.model.paint import Palette
from guidegen.reading.content.archive import read_palette
from guidegen.reading.drafts.records import Draft
from guidegen.reading.drafts.sources import ENDINGS, draft_of, read_source

SPOKEN = CASES / "spoken"


@cache
def town_palette() -> Palette:
    """The palette of the demo archive, by whose names the recordings are told."""
    return read_palette(CONTENT)[0]


def recordings(kind: str) -> list[Path]:
    """Files of one kind: `tuned`, by which the reading was made better, or `scored`, which were only measured."""
    return sorted(file for file in (SPOKEN / kind).iterdir() if file.suffix in ENDINGS)


def drafted(*files: Path, palette: Palette | None = None) -> Draft:
    """The draft of one or several files."""
    palette = palette or town_palette()
    draft = draft_of([read_source(file.name, file.read_bytes(), palette) for file in files])
    assert draft is not None, f"nothing in {files}"
    return draft


def truth_of(file: Path) -> dict[str, Any]:
    """What a recording tells, by hand."""
    truth: dict[str, Any] = yaml.safe_load(file.with_suffix(".yaml").read_text(encoding="utf-8"))
    return truth
