"""The wheel, built and installed elsewhere: it brings its templates and starter content, and needs no checkout.

What it depends on is borrowed from the environment of the tests, so that no network is needed; guidegen itself is not.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import venv
import zipfile
from pathlib import Path

import pytest
from support.paths import ROOT

TOP = ROOT

pytestmark = pytest.mark.slow


def run(*arguments: str | Path, cwd: Path) -> str:
    environment = {
        key: value for key, value in os.environ.items() if not key.startswith(("PYTHON", "VIRTUAL_ENV"))
    }
    environment["XDG_CACHE_HOME"] = str(cwd / "caches")
    done = subprocess.run(
        [str(part) for part in arguments],
        cwd=cwd,
        env=environment,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", at, TOP, cwd=at)
    (made,) = at.glob("*.whl")
    return made


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of an environment's programs."""
    at = tmp_path_factory.mktemp("installed") / "venv"
    venv.create(at, with_pip=False)
    programs = at / ("Scripts" if os.name == "nt" else "bin")
    python = programs / Path(sys.executable).name
    pip = [sys.executable, "-m", "pip", "--disable-pip-version-check", "--python", python]
    run(*pip, "install", "--quiet", "--no-deps", "--no-index", wheel, cwd=at)
    # A line in a .pth file adds a folder, but not what that folder's own .pth files add: not the editable guidegen.
    library = Path(
        run(python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))", cwd=at).strip()
    )
    borrowed = {path for path in sys.path if Path(path).name in {"site-packages", "dist-packages"}}
    (library / "borrowed.pth").write_text("\n".join(sorted(borrowed)) + "\n", encoding="utf-8")
    found = run(python, "-c", "import guidegen; print(guidegen.__file__)", cwd=at).strip()
    assert Path(found).is_relative_to(library)
    return programs


def test_it_has_what_it_needs_and_nothing_else(wheel: Path):
    with zipfile.ZipFile(wheel) as archive:
        names = set(archive.namelist())
    templates = {
        f"guidegen/_templates/{path.relative_to(TOP / 'templates').as_posix()}"
        for path in (TOP / "templates").rglob("*")
        if path.is_file()
    }
    assert names >= templates
    assert "guidegen/_templates/start/palette.yaml" in names
    assert names >= {
        path.relative_to(TOP).as_posix()
        for path in (TOP / "guidegen").rglob("*.t*")
        if path.suffix in (".toml", ".txt")
    }
    tops = {name.split("/")[0] for name in names}
    assert {top for top in tops if not top.endswith(".dist-info")} == {"guidegen"}


def test_far_from_the_checkout_it_starts_checks_and_builds(installed: Path, tmp_path: Path):
    guidegen = installed / "guidegen"
    run(guidegen, "start", cwd=tmp_path)
    run(guidegen, "start", "guides/ferry-watch", cwd=tmp_path)
    run(guidegen, "start", "plans/regatta", cwd=tmp_path)
    assert run(guidegen, "check", cwd=tmp_path) == "Nothing to mend.\n"
    counts = json.loads(run(guidegen, "build", "--json", cwd=tmp_path))
    assert counts["pages"] == sum(1 for _ in (tmp_path / "site").rglob("*.html"))
    page = (tmp_path / "site/guides/first-guide/index.html").read_text(encoding="utf-8")
    assert "Mustard Sail" in page
    assert str(TOP) not in page


def test_it_runs_as_a_module_and_knows_its_version(installed: Path, tmp_path: Path):
    python = installed / Path(sys.executable).name
    assert run(python, "-m", "guidegen", "--version", cwd=tmp_path) == "guidegen 0.1.0\n"
