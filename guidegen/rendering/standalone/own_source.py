"""What a sent page was made from, as data within it: whoever keeps an archive can take it in from there."""

from __future__ import annotations

import base64
import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.rendering.page.pictures import Picture

# Under which name the data stands in the page, and the form of it.
BLOCK = "sent-source"
FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSource:
    """The text files that a guide is made from, and its photos, both by their path in content."""

    texts: Mapping[str, str]
    photos: Mapping[str, Picture]


def source_block(own: OwnSource, photos: Mapping[Picture, bytes], page: str) -> str:
    """The element that holds the source.

    A photo that the `page` shows is named by its SHA-256 alone, any other is put here. Nothing in the element can end
    it, and browsers run no JSON.
    """
    digests, more = {}, {}
    for path, picture in own.photos.items():
        data = photos[picture]
        digests[path] = hashlib.sha256(data).hexdigest()
        text = base64.b64encode(data).decode("ascii")
        if text not in page:
            more[digests[path]] = text
    said = {"format": FORMAT, "files": dict(own.texts), "photos": digests, "more": more}
    block = json.dumps(said, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    return f'<script type="application/json" id="{BLOCK}">{block}</script>\n'
