"""Broken, cut and hostile files are told as such: no crash, no hang, no noise, and never the machine's memory."""

from __future__ import annotations

import random
import struct
import subprocess
import sys
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from PIL import Image
from support.photos import KINDS, corners, flat, load, loaded, png, saved
from support.waiting import PATIENCE

from guidegen.base.workers import in_workers
from guidegen.imaging import trouble
from guidegen.imaging.limits import MAX_PIXELS, MAX_PIXELS_JPEG, MAX_SCANS
from guidegen.imaging.load import Loaded, Opened, open_photo
from guidegen.imaging.trouble import Trouble

MORE_KINDS = (*KINDS, "CMYK JPEG", "progressive JPEG", "palette PNG", "deflated TIFF", "moving WebP")


@cache
def small_file(kind: str) -> bytes:
    """A small photo of a kind, with Exif and a profile's worth of structure to break."""
    picture = Image.fromarray(corners())
    if kind == "CMYK JPEG":
        return saved(picture.convert("CMYK"), "JPEG")
    if kind == "progressive JPEG":
        return saved(picture, "JPEG", progressive=True)
    if kind == "palette PNG":
        return saved(picture.quantize(8), "PNG", transparency=2)
    if kind == "deflated TIFF":
        return saved(picture, "TIFF", compression="tiff_adobe_deflate")
    if kind == "moving WebP":
        return saved(picture, "WEBP", save_all=True, append_images=[flat("red")], duration=50)
    exif = Image.Exif()
    exif[0x0112] = 6
    return saved(picture, kind, exif=exif.tobytes())


def fine_or_told(data: bytes) -> bool:
    """Whether it was fine; anything but a photo or its trouble fails."""
    found = load(data)
    assert isinstance(found, Loaded | Trouble)
    return isinstance(found, Loaded)


def in_a_worker(look: Callable[[bytes], bool], photos: list[bytes]) -> list[bool]:
    """What a function says of photos, where what libraries write straight to the terminal is kept from it."""
    return list(in_workers(lambda data, _ask: look(data), photos, cores=1))


@pytest.mark.parametrize("kind", MORE_KINDS)
def test_cut_short(kind: str, capfd: pytest.CaptureFixture[str]):
    data = small_file(kind)
    places = sorted({0, 1, 2, 4, 8, 12, 30, *range(50, len(data), max(1, len(data) // 40)), len(data)})
    fine = dict(zip(places, in_a_worker(fine_or_told, [data[:at] for at in places]), strict=True))
    assert fine[len(data)]
    # What is cut off may be nothing but metadata at the end; as much as half is never all right.
    assert not any(fine[at] for at in places if at <= len(data) // 2)
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize("kind", MORE_KINDS)
def test_spoilt_bytes(kind: str, capfd: pytest.CaptureFixture[str], caplog: pytest.LogCaptureFixture):
    data = small_file(kind)
    chance = random.Random(kind)
    spoilt = []
    for _ in range(80):
        broken = bytearray(data)
        for _ in range(chance.choice((1, 3, 20))):
            # Half of the changes hit the header, where sizes and offsets stand.
            end = len(data) if chance.random() < 0.5 else min(len(data), 200)
            broken[chance.randrange(2, end)] = chance.choice((0, 1, 0x7F, 0x80, 0xFF, chance.randrange(256)))
        spoilt.append(bytes(broken))
    assert not all(in_a_worker(fine_or_told, spoilt))
    assert not any(in_a_worker(lambda data: bool(load(data) and caplog.records), spoilt))
    assert capfd.readouterr() == ("", "")


@pytest.mark.parametrize("kind", KINDS)
def test_noise_behind_a_good_signature(kind: str):
    chance = random.Random(kind)
    start = small_file(kind)[:32]
    for length in (1, 100, 5_000):
        assert not fine_or_told(start + chance.randbytes(length))


def ispe(data: bytes, size: int) -> bytes:
    """HEIC or AVIF with another width and height in each image size box (ISO/IEC 23008-12 §6.5.3)."""
    at = data.find(b"ispe")
    while at >= 0:
        data = data[: at + 8] + struct.pack(">II", size, size) + data[at + 16 :]
        at = data.find(b"ispe", at + 4)
    return data


def sized_jpeg(width: int, height: int) -> bytes:
    data = small_file("JPEG")
    at = data.rindex(b"\xff\xc0")  # the frame header, ITU-T T.81 §B.2.2
    return data[: at + 5] + struct.pack(">HH", height, width) + data[at + 9 :]


def webp_canvas(width: int, height: int) -> bytes:
    """An extended WebP (RFC 9649 §2.7) whose canvas is as large as asked."""
    still = small_file("moving WebP")
    canvas = (width - 1).to_bytes(3, "little") + (height - 1).to_bytes(3, "little")
    return still[:24] + canvas + still[30:]


def tiff(tags: dict[int, int]) -> bytes:
    """A TIFF 6.0 of one directory of LONG values, without a picture behind it."""
    entries = b"".join(struct.pack("<HHII", tag, 4, 1, value) for tag, value in sorted(tags.items()))
    return b"II*\0" + struct.pack("<IH", 8, len(tags)) + entries + b"\0" * 64


def grey_tiff(**more: int) -> bytes:
    names = {"tile_width": 322, "tile_length": 323, "subfile": 254, "rows": 278, "dng": 50706}
    tags = {256: 64, 257: 48, 258: 8, 259: 1, 262: 1, 277: 1, 273: 8, 279: 64 * 48}
    return tiff({**tags, **{names.get(name, 0) or int(name[1:]): value for name, value in more.items()}})


BOMBS = {
    "png": lambda: png(200_000, 200_000),
    "png just above": lambda: png(12_000, MAX_PIXELS // 12_000 + 1),
    "jpeg": lambda: sized_jpeg(65_500, 65_500),
    "webp": lambda: webp_canvas(16_000_000, 16_000_000),
    "webp within its own limit": lambda: webp_canvas(16_383, 16_383),
    "tiff": lambda: grey_tiff(t256=1_000_000, t257=1_000_000),
    "tile": lambda: grey_tiff(tile_width=60_000, tile_length=60_000, t324=8, t325=100),
    "avif": lambda: ispe(small_file("AVIF"), 60_000),
    "heic": lambda: ispe(small_file("HEIF"), 60_000),
}


@pytest.mark.parametrize("bomb", BOMBS)
def test_bombs_are_refused(bomb: str):
    found = load(BOMBS[bomb]())
    assert isinstance(found, Trouble)
    if bomb not in ("avif", "heic", "webp"):  # their libraries refuse such a file without saying why
        most = {"jpeg": "120", "webp within its own limit": "40"}.get(bomb, "64")
        assert f"{most} million pixels" in found.what
        assert found.help == "Make it smaller, 4000 pixels wide for instance."


def test_the_size_is_told_where_it_is_known():
    found = load(png(12_000, MAX_PIXELS // 12_000 + 1))
    assert found == trouble.too_many_pixels(MAX_PIXELS, (12_000, 5_334))
    assert found.what == "is 12000 × 5334 pixels large; a photo may have up to 64 million pixels"


def test_a_jpeg_may_be_larger_since_it_is_decoded_at_a_fraction():
    data = sized_jpeg(12_000, 9_000)
    opened = open_photo(data, 1600)
    assert isinstance(opened, Opened)
    assert opened.pixels == 3_000 * 2_250
    assert loaded(data, 1600).image.size == (1600, 2133)
    assert load(sized_jpeg(12_000, 10_001), 1600) == trouble.too_many_pixels(
        MAX_PIXELS_JPEG, (12_000, 10_001)
    )


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux keeps to a limit of address space")
def test_bombs_do_not_take_the_memory(tmp_path: Path):
    # All of them in a process that may have 1 GB of addresses more than Python and the libraries take. The smallest
    # of the pictures would fill a byte for each of three colours of every pixel.
    for name, bomb in BOMBS.items():
        (tmp_path / f"{name}.photo").write_bytes(bomb())
    code = """
import resource, sys
from pathlib import Path
def status(field):
    return next(int(line.split()[1]) * 1024 for line in open("/proc/self/status") if line.startswith(field))
from guidegen.imaging.load import decode, open_photo
from guidegen.imaging.trouble import NO_MEMORY, Trouble
import PIL.ImageCms, numpy, pillow_heif
idle = status("VmHWM")
resource.setrlimit(resource.RLIMIT_AS, (status("VmSize") + 1_000_000_000,) * 2)
for path in sorted(Path(sys.argv[1]).iterdir()):
    found = open_photo(path.read_bytes(), 1600)
    found = found if isinstance(found, Trouble) else decode(found, 1600)
    assert isinstance(found, Trouble) and found != NO_MEMORY, path
print(status("VmHWM") - idle)
"""
    run = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path)],
        capture_output=True,
        text=True,
        check=True,
        timeout=PATIENCE,
    )
    assert run.stderr == ""
    assert int(run.stdout) < MAX_PIXELS * 3 / 2


def test_a_progressive_jpeg_of_endless_scans():
    data = small_file("progressive JPEG")
    scan = data[data.rindex(b"\xff\xda") : -2]
    assert load(data[:-2] + scan * MAX_SCANS + b"\xff\xd9") == trouble.TOO_MANY_SCANS
    assert loaded(data).width == 64


def test_a_picture_without_pixels():
    assert load(png(0, 0)) == trouble.BROKEN
    assert isinstance(load(sized_jpeg(0, 0)), Trouble)


@pytest.mark.parametrize("sign", [{"subfile": 1}, {"dng": 0x0104}])
def test_raw_files_are_not_taken_for_their_preview(sign: dict[str, int]):
    # TIFF 6.0: a first picture that is a reduced copy of another; or a version of the open raw format.
    assert load(grey_tiff(**sign)) == trouble.CAMERA_RAW


def test_the_same_tiff_without_the_sign_is_a_photo():
    assert loaded(grey_tiff() + b"\x80" * 64 * 48).width == 64


def test_png_whose_words_burst():
    import zlib

    from support.photos import png_chunk

    body = b"".join(b"\0" + row.tobytes() for row in corners())
    bursting = b"Comment\0\0" + zlib.compress(b"\0" * 200_000_000, 9)
    data = png(64, 48, body=body, more=png_chunk(b"zTXt", bursting))
    assert isinstance(load(data), Loaded | Trouble)


def test_memory_that_runs_out_is_not_called_broken(monkeypatch: pytest.MonkeyPatch):
    def full(*_: object) -> None:
        raise MemoryError

    data = small_file("PNG")
    monkeypatch.setattr(Image.Image, "load", full)
    monkeypatch.setattr("PIL.ImageFile.ImageFile.load", full)
    assert load(data) == trouble.NO_MEMORY
