"""The photos of a content folder opened ahead of its guides, where nothing is kept that could know them.

Nothing else is loaded here, so that it begins at once.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from guidegen.imaging.ahead import PhotosAhead, opened_ahead
from guidegen.imaging.kinds import ENDINGS
from guidegen.reading.content.discover import discover
from guidegen.writing.cache import cache_folder, is_there


@contextmanager
def photos_ahead(content: Path) -> Iterator[PhotosAhead]:
    """Open the photos that lie beside guides, as far as that is soon done. Raises as `discover`."""
    if is_there(cache_folder()):
        yield PhotosAhead()
        return
    found = discover(content)
    sizes = {
        found.root / path: stamp.size
        for path, stamp in sorted(found.listing.files.items())
        if path.startswith("guides/") and path.casefold().endswith(ENDINGS)
    }
    with opened_ahead(sizes) as ahead:
        yield ahead
