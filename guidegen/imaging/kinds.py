"""Which kind of picture some bytes are. The content decides; the name's ending only says what may be one."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class Kind(StrEnum):
    """The kinds of photo that can be used; the value is Pillow's name of the format."""

    JPEG = "JPEG"
    PNG = "PNG"
    WEBP = "WEBP"
    HEIC = "HEIF"
    AVIF = "AVIF"
    TIFF = "TIFF"


# The endings that cameras, phones and drawing programs give to what can be used. A phone's live video is no photo.
ENDINGS = (".jpg", ".jpeg", ".png", ".webp", ".heic", ".heif", ".avif", ".tif", ".tiff")
USABLE = "JPEG, PNG, WebP, HEIC, AVIF or TIFF"

# The file type box and its brands: ISO/IEC 14496-12 §4.3; still pictures: ISO/IEC 23008-12 annex B (HEVC)
# and the AV1 Image File Format, §6. `mif1` and `msf1` only say "a picture", so the other brands decide.
_AVIF_BRANDS = frozenset((b"avif", b"avis"))
_HEIC_BRANDS = frozenset((b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"hevm", b"hevs"))
_PICTURE_BRANDS = frozenset((b"mif1", b"msf1"))

# First bytes of files that are given as photos by mistake, and what a painter would call them.
_OTHERS: tuple[tuple[bytes, str], ...] = (
    (b"GIF8", "a GIF picture"),
    (b"BM", "a BMP picture"),
    (b"%PDF", "a PDF document"),
    (b"8BPS", "an image editor's own layered file"),
    (b"\xff\x0a", "a JPEG XL picture"),
    (b"\x00\x00\x00\x0cJXL ", "a JPEG XL picture"),
    (b"\x00\x00\x00\x0cjP  ", "a JPEG 2000 picture"),
    (b"\xff\x4f\xff\x51", "a JPEG 2000 picture"),
    (b"\x00\x00\x01\x00", "an icon"),
    (b"PK\x03\x04", "a ZIP archive"),
    (b"II*\x00\x10\x00\x00\x00CR", "a camera's raw file"),
    (b"FUJIFILMCCD-RAW", "a camera's raw file"),
    (b"IIRO", "a camera's raw file"),
    (b"IIRS", "a camera's raw file"),
    (b"IIU\x00", "a camera's raw file"),
)
_MARKUP_LOOKED_AT = 1024  # an SVG's opening tag may stand behind a declaration and a remark


@dataclass(frozen=True, slots=True, kw_only=True)
class Other:
    """Something that is no usable photo. `called` is what it is, '' where nobody can tell."""

    called: str = ""


def kind_of(data: bytes) -> Kind | Other:
    """The kind of photo these bytes begin, by their signature."""
    if data.startswith(b"\xff\xd8\xff"):
        return Kind.JPEG
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return Kind.PNG
    if data.startswith(b"RIFF") and data[8:12] == b"WEBP":
        return Kind.WEBP
    if data[4:8] == b"ftyp":
        return _of_brands(data)
    for start, called in _OTHERS:
        if data.startswith(start):
            return Other(called=called)
    # Classic TIFF in either byte order, and BigTIFF.
    if data[:4] in (b"II*\x00", b"MM\x00*", b"II+\x00", b"MM\x00+"):
        return Kind.TIFF
    if b"<svg" in data[:_MARKUP_LOOKED_AT].lower():
        return Other(called="an SVG drawing")
    return Other()


def _of_brands(data: bytes) -> Kind | Other:
    length = min(int.from_bytes(data[:4], "big"), 512)
    brands = {data[8:12]} | {data[at : at + 4] for at in range(16, length - 3, 4)}
    if brands & _AVIF_BRANDS:
        return Kind.AVIF
    if brands & (_HEIC_BRANDS | _PICTURE_BRANDS):
        return Kind.HEIC
    if b"crx " in brands:
        return Other(called="a camera's raw file")
    return Other(called="a film")
