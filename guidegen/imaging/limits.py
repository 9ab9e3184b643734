"""How large a photo may be, and how many pixels may be decoded at the same time."""

from __future__ import annotations

# The largest common phone sensors give 108 million pixels (12,000 × 9,000), as JPEG, which can be decoded at a
# fraction of its size: 90 MB of memory for such a photo, or 370 MB if it is progressive.
MAX_PIXELS_JPEG = 120_000_000

# All other kinds are decoded whole. HEIC and AVIF take 7 to 9 bytes a pixel, PNG and TIFF 5 to 10: 650 MB here at
# most, where no photo may take 1 GB. Phones save HEIC of up to 50 million pixels.
MAX_PIXELS = 64_000_000

# WebP is the thirstiest: a photo with alpha took 1,073 MB at 64 million pixels, 17 bytes each.
MAX_PIXELS_WEBP = 40_000_000

# What may be decoded at a time, in pixels of 10 bytes: one photo as large as may be, or five ordinary ones of 12 million
# pixels, and many more of JPEG, which is decoded at a fraction of its size. It does not grow with the cores: as many
# hostile photos would then take several GB.
MAX_AT_A_TIME = 64_000_000

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
# Scans times pixels: 20 passes over the largest photo, some six seconds; over one of 9 million pixels all of the above.
MAX_SCANNED = 2_400_000_000

# Profiles of printing presses have up to 3 MB; a larger one is not looked at.
MAX_PROFILE = 4_000_000


class Budget:
    """Shares out pixels among jobs: together they never decode more than its limit at a time.

    A photo that needs more than the whole limit waits until it is alone.
    """

    def __init__(self) -> None:
        self._taken: dict[int, int] = {}

    def take(self, job: int, pixels: int) -> bool:
        """Whether so many pixels are free; then the job of that number has them."""
        used = sum(self._taken.values())
        if used and used + pixels > MAX_AT_A_TIME:
            return False
        self._taken[job] = pixels
        return True

    def give_back(self, job: int) -> None:
        """Free what the job had, if anything."""
        self._taken.pop(job, None)
