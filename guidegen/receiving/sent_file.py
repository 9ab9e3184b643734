"""What a file made by `guidegen send` was made from, as it lies in that file. It may as well be forged."""

from __future__ import annotations

import base64
import binascii
import hashlib
import json
import re

from guidegen.rendering.standalone.own_source import BLOCK, FORMAT
from guidegen.rendering.standalone.sent_page import MARK

_MARKED = f'<meta name="generator" content="{MARK}'.encode()
# A guide, its lists and its paints as text, and photos that the page itself does not show.
_LARGEST_BLOCK = 100_000_000
_PHOTO = re.compile(rb"data:image/webp;base64,([A-Za-z0-9+/=]+)")


def is_sent(start: bytes) -> bool:
    """Whether a file was made by `send`, by its beginning."""
    return _MARKED in start


def files_of(page: bytes) -> dict[str, bytes] | None:
    """The files of content that a page was made from, by path; None where it does not hold them."""
    opening = f'<script type="application/json" id="{BLOCK}">'.encode()
    start = page.find(opening)
    end = page.find(b"</script>", start)
    if start < 0 or not start + len(opening) <= end <= start + _LARGEST_BLOCK:
        return None
    try:
        said = json.loads(page[start + len(opening) : end])
    except (ValueError, RecursionError):
        return None
    if not isinstance(said, dict) or said.get("format") != FORMAT:
        return None
    texts, photos, more = (_texts(said.get(key)) for key in ("files", "photos", "more"))
    found = {path: text.encode("utf-8", "replace") for path, text in texts.items()}
    wanted = set(photos.values())
    shown = {digest: data for digest, data in _shown(page) if digest in wanted} if wanted else {}
    for path, digest in photos.items():
        data = shown.get(digest) or _decoded(more.get(digest, "").encode("ascii", "replace"))
        if data:
            found[path] = data
    return found


def _texts(value: object) -> dict[str, str]:
    several = value if isinstance(value, dict) else {}
    return {key: text for key, text in several.items() if isinstance(text, str)}


def _shown(page: bytes) -> list[tuple[str, bytes]]:
    decoded = (_decoded(found[1]) for found in _PHOTO.finditer(page))
    return [(hashlib.sha256(data).hexdigest(), data) for data in decoded if data]


def _decoded(text: bytes) -> bytes:
    try:
        return base64.b64decode(text, validate=True)
    except (binascii.Error, ValueError):
        return b""
