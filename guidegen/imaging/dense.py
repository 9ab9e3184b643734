"""A photo in one size and as few bytes as that takes, for a file that carries its photos along."""

from __future__ import annotations

from io import BytesIO

from guidegen.base.errors import MachineError
from guidegen.imaging.develop import Original, Store
from guidegen.imaging.load import decode, open_photo, read_bytes
from guidegen.imaging.picture import WIDTHS, Picture, digest_of, key_of
from guidegen.imaging.pixels import shrunk
from guidegen.imaging.trouble import Trouble

# As `derive` encodes, but with all the time that WebP can use: on the demo's photos 5 to 10% smaller, and 50 to 110 ms
# each instead of 13 to 56.
_WEBP = {"quality": 78, "method": 6}
_NAME = "{key}-{width}-dense.webp"


def fitting(picture: Picture) -> tuple[int, int]:
    """The size that serves a phone and a page alike: 960 wide, or the photo's own where that is less."""
    return picture.sizes[min(1, len(picture.sizes) - 1)]


def dense(photo: Original, picture: Picture, store: Store) -> bytes:
    """A developed photo as WebP of the fitting size, without metadata, encoded once and then kept in the store.

    Raises MachineError where the photo is no longer the one that was developed.
    """
    size = fitting(picture)
    name = _NAME.format(key=picture.key, width=size[0])
    known = store.get(name)
    if known is not None:
        return known
    data = read_bytes(photo.path)
    if isinstance(data, Trouble) or key_of(digest_of(data)) != picture.key:
        raise _changed(photo)
    opened = open_photo(data, WIDTHS[-1])
    loaded = opened if isinstance(opened, Trouble) else decode(opened, WIDTHS[-1])
    if isinstance(loaded, Trouble):
        raise _changed(photo)
    image = loaded.image
    for smaller in sorted((one for one in picture.sizes if one >= size), reverse=True):
        if image.size != smaller:
            image = shrunk(image, smaller)
    out = BytesIO()
    image.save(out, "WEBP", **_WEBP)
    store.put(name, out.getvalue())
    return out.getvalue()


def _changed(photo: Original) -> MachineError:
    return MachineError(f"“{photo.path}” changed while the guide was being put together.", "Send it again.")
