"""`guidegen build` where a large part of the site would go: it stops and says so, unless that is asked for."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from support.content_folders import bytes_of, lay_out

from guidegen.building.build import Order, build
from guidegen.commands.build import command

pytestmark = pytest.mark.slow

PALETTE = "» palette.yaml\npaints:\n  - {name: Oilskin Ochre, colour: b8862f}\n"
GUIDE = "» guides/{name}.md\n---\ntitle: {name}\nsteps:\n  - {{step: Coat, paint: Oilskin Ochre, each: 4 min}}\n---\n"
# A guide has two pages, its own and its bench.
MANY = [f"figure-{n:02}" for n in range(24)]


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    lay_out(Path("content"), PALETTE + "".join(GUIDE.format(name=name) for name in MANY))
    first = built()
    assert (first.exit_code, first.stderr) == (0, "")
    return tmp_path


def built(*options: str) -> Result:
    return CliRunner().invoke(command, ["--out", "site", "--cache", "cache", *options])


def take_away(count: int) -> None:
    for name in MANY[:count]:
        Path(f"content/guides/{name}.md").unlink()


@pytest.mark.parametrize("options", [(), ("--leave-out-faulty",)])
def test_it_stops_before_anything_is_written(options: tuple[str, ...]):
    before = bytes_of(Path("site"))
    pages = sum(path.endswith(".html") for path in before)
    take_away(11)
    stopped = built(*options)
    assert stopped.exit_code == 1
    assert stopped.stderr.startswith(
        f"This build would remove 22 of the {pages} pages in “site”: guides/figure-00 (2), guides/figure-01 (2), "
    )
    assert " and 6 more folders.\n" in stopped.stderr
    assert "add --remove-many" in stopped.stderr
    assert stopped.stderr.endswith("Nothing was written.\n")
    told = json.loads(built(*options, "--json").stdout)
    assert (told["pages"], told["removed"], told["kept"]) == (0, 0, [])
    assert bytes_of(Path("site")) == before


def test_it_goes_on_where_that_is_asked_for():
    take_away(11)
    assert built("--remove-many").exit_code == 0
    assert not Path("site/guides/figure-10").exists()
    assert Path("site/guides/figure-11/index.html").exists()
    assert built().exit_code == 0


def test_twenty_pages_may_always_go():
    take_away(10)
    assert built().exit_code == 0
    assert not Path("site/guides/figure-09").exists()


def test_so_may_a_tenth_of_the_site():
    names = [f"other-{n:03}" for n in range(110)]
    lay_out(Path("content"), "".join(GUIDE.format(name=name) for name in names))
    assert built().exit_code == 0
    take_away(12)
    assert built().exit_code == 0


def test_a_preview_shows_what_is_left():
    """It is built into a folder of its own, where nothing can be lost."""
    take_away(20)
    order = Order(
        content=Path("content"), out=Path("site"), cache=Path("cache"), drafts=True, remove_many=True
    )
    outcome = build(order)
    assert outcome.counts is not None
    assert outcome.refused is None
