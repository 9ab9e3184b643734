"""Where the program's own files lie: its modules, and the templates that come with it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

PACKAGE = Path(__file__).resolve().parent.parent


@cache
def own_templates() -> Path:
    """Our templates and starter content: inside the package once installed, beside it in a checkout."""
    installed = PACKAGE / "_templates"
    return installed if installed.is_dir() else PACKAGE.parent / "templates"
