"""A crash inside the library that decodes photos ends in a sentence with the photo's name, and never in a trace."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from support.content_folders import lay_out
from support.waiting import PATIENCE

pytestmark = pytest.mark.slow

CONTENT = """» site.yaml
title: The delta bench
» guides/ferry-watch.md
---
title: The ferry watch
steps:
  - {step: Coat, paint: none, each: 1 min, photo: {file: one.jpg, alt: x}}
  - {step: Hat, paint: none, each: 1 min, photo: {file: two.png, alt: x}}
---
» guides/one.jpg = a photo 640 × 480
» guides/two.png = a photo 640 × 480
"""

# Comes to its end as soon as a PNG is decoded, as a broken library does.
FALLING = """
import os, signal, sys
from PIL import PngImagePlugin
def load(self):
    os.write(2, b"free(): invalid pointer")
    os.kill(os.getpid(), signal.{signal})
PngImagePlugin.PngImageFile.load = load
sys.argv = ["guidegen", *sys.argv[1:]]
from guidegen.__main__ import main
main()
"""


@pytest.mark.skipif(sys.platform != "linux", reason="how a process ends differs between systems")
@pytest.mark.parametrize("command", ["build", "check"])
@pytest.mark.parametrize("signal", ["SIGSEGV", "SIGABRT", "SIGKILL"])
def test_the_photo_is_named(signal: str, command: str, tmp_path: Path):
    content = lay_out(tmp_path / "content", CONTENT)
    places = ["--content", str(content)]
    if command == "build":
        places += ["--out", str(tmp_path / "site"), "--cache", str(tmp_path / "cache")]
    run = subprocess.run(
        [sys.executable, "-c", FALLING.replace("{signal}", signal), command, *places],
        capture_output=True,
        text=True,
        check=False,
        timeout=PATIENCE,
    )
    assert run.returncode == 2
    assert run.stderr == (
        "The library that reads photos has crashed over “two.png”.\n"
        "    Take that photo out, or open it in a picture program and save it anew as JPEG. The site is as it was.\n"
    )
    assert not (tmp_path / "site").exists()
