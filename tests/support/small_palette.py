"""A small palette, and commands asked about it from outside."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from click.testing import CliRunner, Result

PALETTE = """\
ranges:
  Reedbank Acrylics: {size: 17 ml, drop: 0.05 ml}
  Ninelock: {size: 20 ml}
paints:
  - {name: Oilskin Ochre, range: Reedbank Acrylics, code: RB-05, colour: "#b8862f", owned: 1}
  - {name: Brass Lamp, range: Reedbank Acrylics, colour: "#c99b45", discontinued: yes}
  - {name: Buoy in Sun, range: Reedbank Acrylics, colour: "#cba049", owned: 2}
  - {name: Ropewalk, range: Reedbank Acrylics, colour: "#b09a72"}
  - {name: "Tidewrack, wet", range: Reedbank Acrylics, colour: "#4a4a35"}
  - {name: Bell Rope Red, range: Reedbank Acrylics, colour: "#a8342f"}
  - {name: Fogbell, range: Reedbank Acrylics, colour: "#a78a4f", kind: metallic}
  - {name: Tin Bailer, range: Reedbank Acrylics, colour: "#a88c50", kind: metallic}
  - {name: Silt Wash, range: Ninelock, colour: "#4a3b2a", kind: wash}
  - {name: Kelp Wash, range: Ninelock, colour: "#3b4427", kind: wash}
  - {name: Bilge Wash, range: Ninelock, colour: "#2a2d36", kind: wash}
  - {name: Stern Light Glaze, range: Ninelock, colour: "#c4511f", kind: glaze}
  - {name: Clear Medium, range: Ninelock, kind: medium}
  - {name: Reed, range: Ninelock, colour: "#7f9144"}
  - {name: Reed, range: Reedbank Acrylics, colour: "#7f9144"}
mixes:
  - {name: Wet Wool wash, parts: {Bilge Wash: 5, Kelp Wash: 2, Clear Medium: 1}}
  - {name: Lantern brass, parts: {Fogbell: 1, Clear Medium: 1}, colour: "#a78a4f"}
  - {name: Rained-on slate, parts: {Ropewalk: 3, Silt Wash: 1}, colour: "#b8862f", kind: paint}
"""


def run(command: Any, content: Path, *arguments: str) -> Result:
    return CliRunner().invoke(command, [*arguments, "--content", str(content)])


def data(command: Any, content: Path, *arguments: str) -> dict[str, Any]:
    result = run(command, content, *arguments, "--json")
    assert result.exit_code == 0, result.stderr
    found = json.loads(result.stdout)
    assert isinstance(found, dict)
    return found
