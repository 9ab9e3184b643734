"""What takes long to make is made by one of the workers of a run, and the others wait for it."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from support.content_folders import lay_out
from support.paths import CASES, CONTENT
from support.waiting import until

from guidegen.commands.build import command


def made_once(factory: pytest.TempPathFactory, name: str, make: Callable[[Path], None]) -> Path:
    """The folder of that name, which `make` fills in whichever worker asks for it first. Tests only read what is in it."""
    own = factory.getbasetemp()
    folder = (own.parent if "PYTEST_XDIST_WORKER" in os.environ else own) / name
    ready, failed = folder / "ready", folder / "failed"
    try:
        folder.mkdir()
    except FileExistsError:
        until(lambda: ready.exists() or failed.exists())
        assert ready.exists(), f"{name} could not be made; the worker that tried says why"
        return folder
    try:
        make(folder)
    except BaseException:
        failed.touch()
        raise
    ready.touch()
    return folder


def built_demo(factory: pytest.TempPathFactory) -> Path:
    """The site of the demo as the command makes it, with its cache beside it."""
    return made_once(factory, "demo", lambda at: _build(CONTENT, at)) / "site"


def built_german(factory: pytest.TempPathFactory) -> Path:
    """A site in German, with its cache beside it."""

    def make(at: Path) -> None:
        lay_out(at / "content", (CASES / "german.txt").read_text("utf-8"))
        _build(at / "content", at)

    return made_once(factory, "german", make) / "site"


def _build(content: Path, at: Path) -> None:
    places = ["--content", str(content), "--out", str(at / "site"), "--cache", str(at / "cache")]
    result = CliRunner().invoke(command, places)
    assert result.exit_code == 0, result.output
