"""Makes hostile photos and file names: real files with bytes spoiled, and names that one machine or another cannot bear."""

from __future__ import annotations

import io
import os
import random
import socket
import struct
from functools import cache
from pathlib import Path

from PIL import Image

KINDS = (
    "JPEG",
    "progressive JPEG",
    "CMYK JPEG",
    "PNG",
    "palette PNG",
    "WEBP",
    "moving WEBP",
    "TIFF",
    "LZW TIFF",
    "AVIF",
    "HEIF",
)
ENDINGS = {"JPEG": "jpg", "PNG": "png", "WEBP": "webp", "TIFF": "tif", "AVIF": "avif", "HEIF": "heic"}

# Where sizes, counts and offsets of these kinds stand.
_HEADER = 300


@cache
def sound(kind: str) -> bytes:
    """A small photo of a kind, with Exif that turns it."""
    import pillow_heif

    pillow_heif.register_heif_opener()
    form = kind.rpartition(" ")[2]
    picture = Image.linear_gradient("L").resize((96, 72)).convert("RGB")
    more: dict[str, object] = {}
    if "CMYK" in kind:
        picture = picture.convert("CMYK")
    if "palette" in kind:
        picture = picture.quantize(16)
    if "progressive" in kind:
        more["progressive"] = True
    if "moving" in kind:
        more |= {"save_all": True, "append_images": [Image.new("RGB", (96, 72), "red")] * 3, "duration": 40}
    if "LZW" in kind:
        more["compression"] = "tiff_lzw"
    exif = Image.Exif()
    exif[0x0112] = 6
    out = io.BytesIO()
    picture.save(out, form, exif=exif.tobytes(), **more)
    return out.getvalue()


def spoiled(chance: random.Random) -> tuple[str, bytes]:
    """An ending and the bytes of a photo that something has happened to, or nothing."""
    kind = chance.choice(KINDS)
    data = bytearray(sound(kind))
    for _ in range(chance.choice((0, 1, 1, 2, 5, 30))):
        roll = chance.random()
        end = len(data) if chance.random() < 0.4 else min(len(data), _HEADER)
        at = chance.randrange(end) if end else 0
        if roll < 0.6 and at < len(data):
            data[at] = chance.choice((0, 1, 0x7F, 0x80, 0xFF, chance.randrange(256)))
        elif roll < 0.75:
            number = chance.choice((0, 1, 0x7FFF, 0xFFFF, 0x10000, 0x7FFFFFFF, 0xFFFFFFFF))
            data[at : at + 4] = struct.pack(chance.choice(("<I", ">I")), number)
        elif roll < 0.85:
            del data[at : at + chance.randrange(1, 60)]
        elif roll < 0.93:
            data[at:at] = bytes(data[at : at + chance.randrange(1, 60)]) * chance.choice((1, 3, 200))
        elif roll < 0.97:
            del data[at:]
        else:
            data += sound(chance.choice(KINDS))
    ending = ENDINGS[kind.rpartition(" ")[2]]
    return (chance.choice(tuple(ENDINGS.values())) if chance.random() < 0.1 else ending), bytes(data)


NAMES = (
    "con", "CON.txt", "nul.md", "aux", "com1.jpg", "lpt9", "ends.", "ends ", " begins", "..", "...", "a..b", "-rf", "~", "$HOME", "%00",
    "a\nb", "a\tb", "a\rb", "bell\x07", "esc\x1b[31m", "\x7f", "\u2028", "\u202egpj.exe", "\u200b", "caf\u00e9", "cafe\u0301", "СON",
    "ferry-watсh", "Ferry-Watch", "FERRY-WATCH", "ﬁsh", "K", "ß", "SS", "ı", "İ", "한글", "😀", "a" * 200, "é" * 120, "x" * 255, "a:b",
    'a"b', "a'b", "a<b>", "a|b", "a?b", "a*b", "a\\b", "index.html", "INDEX.HTML", "404.html", "assets", "paints", "guides", "plans",
    ".git", ".guidegen-manifest.json", ".guidegen-new", ".htaccess", "thumbs.db", ".DS_Store", "._x", "guide.md", "Guide.MD",
    "figure.svg", "site.yaml", "palette.yaml", "feed.xml", "offline.js", "robots.txt", "\udcff\udcfe", "a\udc80", "{{x}}", "#", "a#b",
    "a?b=c", "&amp;", "<script>", "file.md.md", "name.MD", "name.YAML", "name.yml", ".md", ".yaml", "bench.html",
)  # fmt: skip

FOLDERS = (
    "",
    "guides",
    "guides/ferry-watch",
    "palette",
    "shared",
    "plans",
    "as-is",
    "as-is/deep",
    "templates",
    "templates/parts",
)
_SUFFIXES = ("", "", ".md", ".yaml", ".jpg", ".html", ".svg")


def odd_entry(content: Path, chance: random.Random, texts: list[bytes]) -> None:
    """Put one file, folder, link, pipe or socket of an odd name somewhere into the content."""
    name = chance.choice(NAMES) + chance.choice(_SUFFIXES)
    folder = content / chance.choice(FOLDERS)
    if chance.random() < 0.2:
        folder /= chance.choice(NAMES)
    place = folder / name
    try:
        folder.mkdir(parents=True, exist_ok=True)
        _place(place, content, chance, texts)
    except OSError:  # this machine refuses such a name, so nobody can send it to it
        return


def _place(place: Path, content: Path, chance: random.Random, texts: list[bytes]) -> None:
    roll = chance.random()
    if roll < 0.6:
        place.write_bytes(chance.choice(texts))
    elif roll < 0.68:
        place.mkdir()
        (place / "guide.md").write_bytes(chance.choice(texts))
    elif roll < 0.9:
        place.symlink_to(chance.choice(_TARGETS).replace("CONTENT", str(content)))
    elif roll < 0.94:
        os.mkfifo(place)
    elif roll < 0.96:
        with socket.socket(socket.AF_UNIX) as listening:
            listening.bind(str(place))
    else:
        deep = place
        for _ in range(chance.choice((3, 30, 60))):
            deep /= chance.choice(("d", "deep" * 10))
        deep.mkdir(parents=True)
        (deep / "guide.md").write_bytes(chance.choice(texts))


_TARGETS = (
    "/etc/passwd", "/dev/zero", "/dev/stdin", "/proc/self/mem", "..", "../..", ".", "nowhere", "CONTENT", "CONTENT/site.yaml",
    "CONTENT/guides/ferry-watch/guide.md", "CONTENT/guides/ferry-watch", "CONTENT/../home", "/", "x" * 300, "\n", "CONTENT/guides",
)  # fmt: skip
