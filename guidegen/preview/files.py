"""Which file of the site an address of the preview means, and of what kind it is."""

from __future__ import annotations

import mimetypes
from pathlib import Path

TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json; charset=utf-8",
    ".svg": "image/svg+xml",
    ".webp": "image/webp",
    ".avif": "image/avif",
    ".vtt": "text/vtt; charset=utf-8",
    ".gpl": "text/plain; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".ics": "text/calendar; charset=utf-8",
    ".xml": "application/xml; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".webmanifest": "application/manifest+json",
}


def file_at(root: Path, path: str) -> Path | None:
    """The file a path means, None unless it is a plain file below the root without a dot-name on the way."""
    parts = [part for part in path.split("/") if part]
    if any(part.startswith(".") or "\\" in part or "\0" in part for part in parts):
        return None
    try:
        found = root.joinpath(*parts)
        if found.is_dir():
            found /= "index.html"
        found = found.resolve()
        if not found.is_relative_to(root) or not found.is_file():
            return None
    except (OSError, ValueError, RuntimeError):
        # A name too long, or a link that leads round in a circle.
        return None
    # A link must not lead to what has no address either.
    return None if any(part.startswith(".") for part in found.relative_to(root).parts) else found


def page_at(path: str) -> str:
    """The path in the site of the page at an address's path: `guides/x/` is `guides/x/index.html`."""
    page = "/".join(part for part in path.split("/") if part)
    return page if page.endswith(".html") else f"{page}/index.html".lstrip("/")


def kind_of(file: Path) -> str:
    """Its media type."""
    return TYPES.get(file.suffix) or mimetypes.guess_type(file.name)[0] or "application/octet-stream"
