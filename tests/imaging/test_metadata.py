"""Nothing but pixels passes: what cameras, phones and programs write beside them is gone, by the bytes."""

from __future__ import annotations

import struct
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pillow_heif
import pytest
from PIL import ExifTags, Image, PngImagePlugin
from support.icc_profiles import rgb_profile
from support.photos import SPAN, Shelf, corners, flat, jpeg_segments, png_chunk, riff_chunks, saved

from guidegen.imaging.develop import Original, develop
from guidegen.imaging.social import compose

# Where the invented ferry lands, as a camera writes it: three fractions each (Exif, CIPA DC-008, GPS tags).
LATITUDE = ((48, 1), (51, 1), (2987, 100))
LONGITUDE = ((2, 1), (17, 1), (4033, 100))
SECRETS = (
    b"Tansley's own phone",
    b"Jetty 9, behind the toll house",
    b"serial 4711-0815",
    b"dredger@delta.example",
    b"2026-03-14T06:15:00",
)
MAKER, PLACE, SERIAL, MAIL, TIME = (secret.decode() for secret in SECRETS)
THUMBNAIL = saved(flat((1, 250, 3), (40, 30)), "JPEG", quality=60)
PROFILE = rgb_profile("Display P3").replace(b"test\0", b"mine\0")

XMP = (
    '<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF><rdf:Description '
    f'Iptc4xmpCore:Location="{PLACE}" exif:GPSLatitude="48,51.4978N" dc:creator="{MAIL}"/></rdf:RDF></x:xmpmeta>'
).encode()


def exif() -> bytes:
    """Exif with a place, a serial number, a maker and a thumbnail."""
    tags = Image.Exif()
    tags[0x010F] = MAKER
    tags[0x013B] = MAIL
    inside = tags.get_ifd(0x8769)
    inside[0x9003] = TIME
    inside[0xA431] = SERIAL
    inside[0x927C] = SECRETS[0] + b" maker's note"
    place = tags.get_ifd(0x8825)
    place[1], place[3] = "N", "E"
    place[2] = tuple(n / d for n, d in LATITUDE)
    place[4] = tuple(n / d for n, d in LONGITUDE)
    place[27] = PLACE.encode()
    return tags.tobytes()


def with_thumbnail(block: bytes) -> bytes:
    """The Exif block with a second directory that holds a thumbnail (Exif §4.5.4: IFD1, JPEG offset and length)."""
    tiff = bytearray(block.removeprefix(b"Exif\0\0"))
    end = "<" if tiff[:2] == b"II" else ">"
    (first,) = struct.unpack_from(end + "I", tiff, 4)
    (count,) = struct.unpack_from(end + "H", tiff, first)
    struct.pack_into(end + "I", tiff, first + 2 + 12 * count, len(tiff))
    at = len(tiff) + 2 + 2 * 12 + 4
    tiff += struct.pack(end + "HHHIIHHIII", 2, 0x0201, 4, 1, at, 0x0202, 4, 1, len(THUMBNAIL), 0) + THUMBNAIL
    return b"Exif\0\0" + bytes(tiff)


def jpeg() -> bytes:
    # The signature and resource number that mark IPTC data in a JPEG (IPTC-NAA IIM in an APP13 segment).
    iptc = b"Photoshop 3.0\0" + b"8BIM\x04\x04\0\0" + struct.pack(">I", 5 + len(PLACE))
    iptc += b"\x1c\x02\x5a" + struct.pack(">H", len(PLACE)) + PLACE.encode()
    data = saved(
        corners(), "JPEG", exif=with_thumbnail(exif()), xmp=XMP, comment=SECRETS[3], icc_profile=PROFILE
    )
    marked = b"\xff\xed" + struct.pack(">H", len(iptc) + 2) + iptc
    trailer = b"after the end: " + SECRETS[2]
    return data[:2] + marked + data[2:] + trailer


def png() -> bytes:
    words = PngImagePlugin.PngInfo()
    words.add_text("Comment", PLACE)
    words.add_itxt("XML:com.adobe.xmp", XMP.decode())
    words.add_text("Serial", SERIAL, zip=True)
    data = saved(corners(), "PNG", pnginfo=words, exif=exif(), icc_profile=PROFILE, dpi=(300, 300))
    return data[:-12] + png_chunk(b"prVt", SECRETS[0]) + data[-12:]


def tiff() -> bytes:
    tags = Image.Exif()
    tags.load(exif())
    tags[0x010E], tags[0x0131] = PLACE, SERIAL
    tags[700] = XMP
    tags[33723] = b"\x1c\x02\x5a" + PLACE.encode()
    return saved(corners(), "TIFF", exif=tags.tobytes(), icc_profile=PROFILE)


def heic() -> bytes:
    out = BytesIO()
    file = pillow_heif.from_pillow(Image.fromarray(corners(256, 192)))
    file.save(out, quality=95, exif=exif(), xmp=XMP, icc_profile=PROFILE, thumbnails=[64])
    return out.getvalue()


PHOTOS = {
    "JPEG": jpeg,
    "PNG": png,
    "WEBP": lambda: saved(corners(), "WEBP", exif=exif(), xmp=XMP, icc_profile=PROFILE),
    "AVIF": lambda: saved(corners(), "AVIF", exif=exif(), xmp=XMP, icc_profile=PROFILE),
    "HEIF": heic,
    "TIFF": tiff,
}


def fractions(place: tuple[tuple[int, int], ...]) -> Iterator[bytes]:
    """A place's degrees, minutes and seconds as Exif has them, in both byte orders; the seconds are enough."""
    for end in "<>":
        yield struct.pack(end + "II", *place[2])


# What must not be found in any file of the site, and what shows the original was full of it.
TRACES = (
    *SECRETS,
    *fractions(LATITUDE),
    *fractions(LONGITUDE),
    b"Exif",
    b"GPS",
    b"xmpmeta",
    b"adobe",
    b"Photoshop",
    b"8BIM",
    b"ICC_PROFILE",
    b"acsp",
    b"mine",
    b"EXIF",
    b"XMP ",
    b"ICCP",
    b"after the end",
    THUMBNAIL[-40:],
)


def developed(data: bytes, folder: Path) -> dict[str, bytes]:
    (folder / "photo").write_bytes(data)
    shelf = Shelf()
    (one,) = develop([Original(path=folder / "photo", name="photo", span=SPAN)], shelf)
    assert one.picture is not None
    return shelf.kept


@pytest.mark.parametrize("kind", PHOTOS)
def test_the_originals_are_full_of_traces(kind: str):
    data = PHOTOS[kind]()
    found = [trace for trace in TRACES if trace in data]
    assert len(found) >= 5, found
    assert any(seconds in data for seconds in fractions(LATITUDE))


def test_the_jpeg_has_every_trace_that_a_jpeg_can():
    data = jpeg()
    elsewhere = {b"EXIF", b"XMP ", b"ICCP", b"GPS"}  # names of WebP's chunks; the GPS tags are numbers
    one_order = {*fractions(LATITUDE), *fractions(LONGITUDE)}
    assert {trace for trace in TRACES if trace not in data} <= elsewhere | one_order
    with Image.open(BytesIO(data)) as opened:
        assert opened.getexif().get_ifd(0x8825)[27] == PLACE.encode()
        assert opened.getexif().get_ifd(ExifTags.IFD.IFD1)[0x0201] > 0


@pytest.mark.parametrize("kind", PHOTOS)
def test_no_trace_is_left(kind: str, tmp_path: Path):
    kept = developed(PHOTOS[kind](), tmp_path)
    assert len([name for name in kept if name.endswith((".webp", ".jpg"))]) == 2
    for name, data in kept.items():
        for trace in TRACES:
            assert trace not in data, (name, trace)


@pytest.mark.parametrize("kind", PHOTOS)
def test_the_files_hold_only_what_decoding_needs(kind: str, tmp_path: Path):
    for name, data in developed(PHOTOS[kind](), tmp_path).items():
        if name.endswith(".webp"):
            assert riff_chunks(data) == [b"VP8 "]
        if name.endswith(".jpg"):
            # JFIF's own header, tables and the frame: ITU-T T.81 table B.1; no other APPn, no COM.
            assert {marker for marker, _ in jpeg_segments(data)} == {0xE0, 0xDB, 0xC0, 0xC4}
            assert len(jpeg_segments(data)[0][1]) == 14  # no JFIF thumbnail
            assert data.endswith(b"\xff\xd9")


def test_the_shared_picture_has_none_either():
    data = compose(jpeg(), ["#b8862f", "#4c5660"])
    assert {marker for marker, _ in jpeg_segments(data)} == {0xE0, 0xDB, 0xC0, 0xC4}
    for trace in TRACES:
        assert trace not in data
