"""Opens the photos of a content folder while its guides are still being read, where no cache has them from before.

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
    """Begin to open the photos that lie beside guides, only the first of many. Raises as `discover` does."""
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
