"""A photo in one size and as few bytes as that takes, for a file that carries its photos along."""

from __future__ import annotations

from collections.abc import Sequence
from contextlib import closing
from io import BytesIO

from guidegen.base.errors import MachineError
from guidegen.base.workers import Ask, LostWorkerError, in_workers
from guidegen.imaging.develop import Original, Store, crashed_over
from guidegen.imaging.load import decode, open_photo, read_bytes
from guidegen.imaging.picture import WIDTHS, Picture, digest_of, key_of
from guidegen.imaging.pixels import shrunk
from guidegen.imaging.trouble import Trouble

# As `derive` encodes, but with all the time that WebP can use: on the demo's photos 5 to 10% smaller, and 50 to 110 ms
# each instead of 13 to 56.
_WEBP = {"quality": 78, "method": 6}


def fitting(picture: Picture) -> tuple[int, int]:
    """The size that serves a phone and a page alike: 960 wide, or the photo's own where that is less."""
    return picture.sizes[min(1, len(picture.sizes) - 1)]


def dense(photos: Sequence[tuple[Original, Picture]], store: Store) -> dict[Picture, bytes]:
    """Developed photos as WebP of the fitting size, without metadata, encoded once and then kept in the store.

    Raises MachineError where a photo is no longer the one that was developed.
    """
    known = {picture: store.get(_name(picture)) for _, picture in photos}
    lacking = {picture: original for original, picture in photos if known[picture] is None}
    with closing(in_workers(_encoded, lacking.items())) as made:
        for picture, original in lacking.items():
            try:
                data = next(made)
            except LostWorkerError:
                raise crashed_over(original.name) from None
            if data is None:
                raise MachineError(
                    f"“{original.path}” changed while the guide was being put together.", "Send it again."
                )
            store.put(_name(picture), data)
            known[picture] = data
    return {picture: data for picture, data in known.items() if data is not None}


def _name(picture: Picture) -> str:
    return f"{picture.key}-{fitting(picture)[0]}-dense.webp"


def _encoded(developed: tuple[Picture, Original], _ask: Ask) -> bytes | None:
    """Runs in a worker; None where the photo is another than before."""
    picture, photo = developed
    data = read_bytes(photo.path)
    if isinstance(data, Trouble) or key_of(digest_of(data)) != picture.key:
        return None
    opened = open_photo(data, WIDTHS[-1])
    loaded = opened if isinstance(opened, Trouble) else decode(opened, WIDTHS[-1])
    if isinstance(loaded, Trouble):
        return None
    image, size = loaded.image, fitting(picture)
    for smaller in sorted((one for one in picture.sizes if one >= size), reverse=True):
        if image.size != smaller:
            image = shrunk(image, smaller)
    out = BytesIO()
    image.save(out, "WEBP", **_WEBP)
    return out.getvalue()
