"""The same content makes the same bytes under every Python that we promise, with the same libraries."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tomllib
from importlib.metadata import distributions
from pathlib import Path

import pytest
from support.content_folders import bytes_of
from support.paths import CONTENT, ROOT

RUNNING = "{}.{}".format(*sys.version_info)
OTHERS = [version for version in ("3.11", "3.12", "3.13") if version != RUNNING]
NEEDED = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]["dependencies"]


def run(*command: str | Path, **environ: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command, env={**os.environ, **environ}, capture_output=True, text=True, check=False, encoding="utf-8"
    )


def found(version: str) -> Path | None:
    """An interpreter of this version: on the path, or one that pyenv keeps."""
    kept = sorted(Path.home().glob(f".pyenv/versions/{version}.*/bin/python"))
    for python in (shutil.which(f"python{version}"), *kept):
        # What stands on the path may only stand for one that is not there.
        if (
            python
            and run(python, "-c", f"import sys; assert sys.version.startswith('{version}.')").returncode == 0
        ):
            return Path(python)
    return None


def with_our_libraries(python: Path, folder: Path) -> Path:
    """A virtual environment of this interpreter with the versions of the libraries that are running now."""
    ours = folder / ("Scripts" if os.name == "nt" else "bin") / "python"
    pins = "".join(
        sorted(f"{one.name}=={one.version}\n" for one in distributions() if one.name != "guidegen")
    )
    asked = folder / "pins.txt"
    if asked.is_file() and asked.read_text(encoding="utf-8") == pins:
        return ours
    for command in ([python, "-m", "venv", "--clear", folder], [ours, "-m", "pip", "--version"]):
        done = run(*command)
        if done.returncode:
            pytest.skip(f"{python} makes no virtual environment: {done.stderr.strip()}")
    wanted = folder / "wanted.txt"
    wanted.write_text(pins, encoding="utf-8")
    done = run(ours, "-m", "pip", "install", "--quiet", "--only-binary", ":all:", "-c", wanted, *NEEDED)
    if done.returncode:
        pytest.skip(f"the libraries cannot be installed for {python}: {done.stderr.strip().splitlines()[-1]}")
    wanted.rename(asked)
    return ours


def built(python: Path, at: Path) -> dict[str, bytes]:
    done = run(
        python,
        *(
            "-m",
            "guidegen",
            "build",
            "--content",
            CONTENT,
            "--out",
            at / "site",
            "--cache",
            at / "cache",
        ),
        PYTHONPATH=str(ROOT),
    )
    assert done.returncode == 0, done.stderr
    return bytes_of(at / "site")


@pytest.mark.parametrize("version", OTHERS)
def test_another_python_makes_the_same_site(version: str, tmp_path: Path, request: pytest.FixtureRequest):
    python = found(version)
    if python is None:
        pytest.skip(f"there is no Python {version} on this machine")
    python = with_our_libraries(python, request.config.cache.mkdir(f"python-{version}"))
    there, here = built(python, tmp_path), bytes_of(request.getfixturevalue("demo").folder)
    assert there.keys() == here.keys()
    assert [path for path in here if here[path] != there[path]] == []
