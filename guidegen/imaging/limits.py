"""How large a photo may be, and how many pixels may be decoded at the same time."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from contextlib import contextmanager

# The largest common phone sensors give 108 million pixels (12,000 × 9,000), as JPEG, which can be decoded at a
# fraction of its size: 90 MB of memory for such a photo, or 370 MB if it is progressive.
MAX_PIXELS_JPEG = 120_000_000

# All other kinds are decoded whole. WebP is the thirstiest with 16 bytes a pixel (1 GB here), HEIC and AVIF
# take 8 to 10, PNG and TIFF 5 to 10. Phones save HEIC of up to 50 million pixels.
MAX_PIXELS = 64_000_000

# What may be decoded at a time for each core, so that ordinary photos of 12 million pixels keep all of them busy.
PIXELS_PER_CORE = 16_000_000

# A 40-megapixel TIFF of 16 bits a channel has 240 MB; what is larger is no photo for a page.
MAX_BYTES = 256_000_000

# Files above this are read one at a time, so that many cores do not hold many of them at once.
LARGE_FILE = 32_000_000

# WebP stores width and height less one in 14 bits each (RFC 9649, §2.5 and §3.4).
MAX_SIDE = 16_383

# A progressive JPEG may repeat tiny scans that each cost a pass over the whole picture; programs write about
# ten. Commander and Markham, "Two Issues with the JPEG Standard" (2016), advise a limit and think 1,000
# sensible; with pictures as large as ours, fewer keeps the worst case under a minute or so.
MAX_SCANS = 256

# Profiles of printing presses have up to 3 MB; a larger one is not looked at.
MAX_PROFILE = 4_000_000


class Budget:
    """Shares out pixels among threads: together they never decode more than its limit at a time.

    A photo that needs more than the whole limit waits until it is alone.
    """

    def __init__(self, cores: int) -> None:
        """The limit is one photo as large as may be, or an ordinary one for each core if that is more."""
        self._limit = max(MAX_PIXELS, cores * PIXELS_PER_CORE)
        self._used = 0
        self._changed = threading.Condition()

    @contextmanager
    def hold(self, pixels: int) -> Iterator[None]:
        """Wait until so many pixels are free, and keep them for the block."""
        with self._changed:
            self._changed.wait_for(lambda: self._used == 0 or self._used + pixels <= self._limit)
            self._used += pixels
        try:
            yield
        finally:
            with self._changed:
                self._used -= pixels
                self._changed.notify_all()
