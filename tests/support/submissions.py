"""A club's archive and what members hand in, as readable texts, and the command that takes it in."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path
from typing import Any

from click.testing import Result
from support.content_folders import bytes_of, files_of, lay_out
from support.small_palette import run

from guidegen.commands import receive

__all__ = ["CLUB", "ODDA", "bytes_of", "lay_out", "received", "taken", "zipped"]

CLUB = """\
» site.yaml
title: The Night Jetty Archive
author: the Tuesday painters
defaults: {figures: 5, scale: "1:72", base: 25 mm, technique: base coat, brush: size 2}
» palette.yaml
ranges:
  Reedbank Acrylics: {size: 17 ml, thinner: water}
paints:
  - {name: Harvest Gold, range: Reedbank Acrylics, colour: b8862f, owned: 2}
  - {name: Slate Ground, range: Reedbank Acrylics, colour: 6b737a, aliases: [Wet Roof]}
  - {name: Ropewalk, range: Reedbank Acrylics, colour: b09a72}
mixes:
  - {name: Rained-on slate, parts: {Slate Ground: 3, Ropewalk: 1}}
» shared/jetty-base.yaml
steps:
  - {step: Boards, paint: Ropewalk, each: 2 min}
» guides/lamp-boys/guide.md
---
title: Lamp boys
steps:
  - {step: Coats, paint: Harvest Gold, area: coat, each: 4 min, dry: 15 min}
  - {step: Roof, paint: Wet Roof, area: roof, each: 1 min}
  - {step: Sky, paint: Rained-on slate, area: sky, each: 1 min}
  - insert: jetty-base
---
"""

ODDA = """\
» site.yaml
title: Odda's figures
author: Odda
defaults: {figures: 3, scale: "1:48", dry: 20 min, range: Marsh Colours}
» palette.yaml
ranges:
  Marsh Colours: {size: 12 ml}
paints:
  - {name: Harvest Gold, colour: d8b040, owned: 4}
  - {name: Slate Ground, colour: 6b737a}
  - {name: Eel Skin, colour: 3f4a40}
  - {name: Never Opened, colour: ff0000}
mixes:
  - {name: Rained-on slate, parts: {Slate Ground: 1, Eel Skin: 1}}
» shared/jetty-base.yaml
steps:
  - {step: Mud, paint: Eel Skin, each: 3 min}
» guides/lamp-boys/guide.md
---
title: Lamp boys by daylight
see: [nobody-here]
cover: {file: finished.jpg, alt: Two boys}
steps:
  - {step: Coats, paint: Harvest Gold, area: coat, each: 5 min}
  - step: Sky
    paint: {Harvest Gold: 2, Slate Ground: 1}
    instead: [{paint: Rained-on slate, note: darker}]
    area: sky
    each: 1 min
  - insert: jetty-base
---
As [nobody](../nobody-here/guide.md) paints them.
» guides/lamp-boys/finished.jpg = a photo 600 × 400
» guides/lamp-boys/notes.txt
Remember the lids.
» plans/winter.yaml
title: Winter
"""


def received(content: Path, path: Path, *arguments: str) -> Result:
    """The command's answer."""
    return run(receive.command, content, str(path), *arguments)


def taken(content: Path, path: Path, *arguments: str) -> dict[str, Any]:
    """What is said as JSON of material that comes in."""
    result = received(content, path, *arguments, "--json")
    assert result.exit_code == 0, result.output
    found = json.loads(result.stdout)
    assert isinstance(found, dict)
    return found


def zipped(path: Path, text: str, prefix: str = "") -> Path:
    """A ZIP of the files that a text describes."""
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, data in files_of(text).items():
            archive.writestr(f"{prefix}{name}", data)
    return path
