"""Guides sent as one file, and what such a file holds: for the tests that send, measure and open them."""

from __future__ import annotations

import base64
import re
from pathlib import Path
from typing import Any

from click.testing import Result
from support.small_palette import PALETTE, run

from guidegen.commands import send

GUIDE = """\
---
title: Ferry watch in wet oilskins
meant: {Straw: [area-never-covered]}
figures: 4
cover: {file: finished.jpg, alt: Four watchmen on the jetty}
video: https://ferry.example/films/wet-oilskins
see: [toll-house]
credit: Sculpted by the author's aunt
choose: {headgear: [hood, straw hat]}
steps:
  - {step: Coats, technique: base coat, paint: Oilskin Ochre, area: coat, amount: 0.2 ml, each: 8 min, dry: 15 min,
     photo: [{file: coats.jpg, alt: Coats, caption: A second coat over the first}, {file: finished.jpg, alt: The end of it}]}
  - stop: Fit to stand on the jetty
  - {step: Straw, technique: dry brush, paint: Ropewalk, area: hat, each: 2 min, only: {headgear: straw hat}}
  - {step: Seal, technique: spray varnish, paint: none, once: 5 min, each: 30 s, dry: 1 h}
---

Follow [the toll house](toll-house.md), [the harbour office](https://harbour.example/?a=1&b=2) or [the coats](#coats).
"""
TOLL_HOUSE = """\
---
title: The toll house
steps: [{step: Stones, technique: base coat, paint: Ropewalk, each: 5 min}]
---
"""


def club(folder: Path, guide: str = GUIDE) -> Path:
    """A content folder with two guides, the first of them with two photos."""
    from PIL import Image
    from support.photos import saved, skimage_photo

    (folder / "guides" / "ferry-watch").mkdir(parents=True)
    (folder / "palette.yaml").write_text(PALETTE, encoding="utf-8")
    (folder / "guides" / "ferry-watch" / "guide.md").write_text(guide, encoding="utf-8")
    (folder / "guides" / "toll-house.md").write_text(TOLL_HOUSE, encoding="utf-8")
    for name, source in (("finished.jpg", "coffee.png"), ("coats.jpg", "chelsea.png")):
        with Image.open(skimage_photo(source)) as photo:
            data = saved(photo.convert("RGB").resize((1100, 733)), "JPEG", quality=85)
        (folder / "guides" / "ferry-watch" / name).write_bytes(data)
    return folder


def sent(content: Path, cache: Path, *arguments: str) -> Result:
    """The command's answer, from the current folder."""
    return run(send.command, content, *arguments, "--cache", str(cache))


def parcel(content: Path, cache: Path, out: Path, *arguments: str) -> str:
    """The text of a file that must be written."""
    result = sent(content, cache, *arguments, "--out", str(out))
    assert result.exit_code == 0, result.output
    return out.read_text(encoding="utf-8")


def photos_in(html: str) -> list[bytes]:
    """The photos that lie in a file, as often as they do."""
    return [base64.b64decode(data) for data in re.findall(r"data:image/webp;base64,([A-Za-z0-9+/=]+)", html)]


def between(html: str, tag: str) -> Any:
    """What stands in the one element of a kind that has no attributes."""
    found = re.findall(rf"<{tag}>(.*?)</{tag}>", html, re.DOTALL)
    assert len(found) == 1, tag
    return found[0]
