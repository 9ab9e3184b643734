"""Many guides are checked and made in worker processes: the same site for any number of them, and none of it where one dies."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from bench.archives import make_archive
from support.content_folders import bytes_of
from support.waiting import PATIENCE

import guidegen.base.workers
from guidegen.base.diagnostic import Diagnostic
from guidegen.base.workers import MANY_FOR_FORKS
from guidegen.building.build import Order, build
from guidegen.building.memory import Memory, load_memory
from guidegen.computing.colour.mixing import Mixer
from guidegen.computing.colour.stand_in import StandIns

# More than are made in the process itself.
GUIDES = 17


@pytest.fixture(scope="module")
def archive(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """So many guides with a photo each; two of the photos are copies."""
    content = make_archive(
        tmp_path_factory.mktemp("many") / "content", guides=GUIDES, photos=1, paints=60, side=(160, 120)
    )
    (content / "site.yaml").write_text("title: The delta's archive\nurl: https://delta.example/club\n")
    # The undercoat of all is sold no more, so that other pots are looked for among those that are.
    palette = content / "palette.yaml"
    palette.write_text(
        palette.read_text().replace("name: Rope Grey 0,", "name: Rope Grey 0, discontinued: yes,")
    )
    photo = content / "guides" / "watch-0003" / "photo-0.jpg"
    photo.write_bytes((content / "guides" / "watch-0004" / "photo-0.jpg").read_bytes())
    return content


@pytest.fixture
def content(archive: Path, tmp_path: Path) -> Path:
    return Path(shutil.copytree(archive, tmp_path / "content"))


def made(
    content: Path, at: Path, *, cores: int | None, memory: Memory | None = None
) -> tuple[dict[str, bytes], tuple[Diagnostic, ...]]:
    """The site and what was told."""
    built = build(Order(content=content, out=at / "site", cache=at / "cache", cores=cores), memory)
    assert built.counts is not None, built.diagnostics
    return bytes_of(at / "site"), built.diagnostics


@pytest.fixture
def started(monkeypatch: pytest.MonkeyPatch) -> list[object]:
    """The workers that were started."""
    workers: list[object] = []
    start = guidegen.base.workers._Pool._started

    def note(pool):
        workers.append(start(pool))
        return workers[-1]

    monkeypatch.setattr("guidegen.base.workers._Pool._started", note)
    # A thread that another test has left does not decide whether these are worth their start.
    monkeypatch.setattr("guidegen.base.workers.can_fork", lambda: sys.platform == "linux")
    return workers


def test_the_same_bytes_whatever_the_number_of_workers(content: Path, tmp_path: Path, started: list[object]):
    alone = made(content, tmp_path / "1", cores=1)
    several = len(started)
    assert made(content, tmp_path / "2", cores=2) == alone
    assert len(started) > several + 2
    assert made(content, tmp_path / "8", cores=8) == alone
    assert (
        len([one for one in alone[0] if one.startswith("guides/") and one.endswith("/index.html")]) >= GUIDES
    )


def test_the_same_bytes_by_processes_that_were_sent_the_work(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    """As beside the threads of a preview."""
    alone = made(content, tmp_path / "1", cores=1)
    monkeypatch.setattr("guidegen.base.workers.MANY", 2)
    over = threading.Event()
    other = threading.Thread(target=over.wait)
    other.start()
    try:
        assert made(content, tmp_path / "2", cores=2) == alone
    finally:
        over.set()
        other.join()


def test_what_was_made_apart_is_remembered_as_what_was_made_here(
    content: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    kept = {}
    for cores in (1, 2):
        at = tmp_path / str(cores)
        made(content, at, cores=cores)
        memory = load_memory(at / "cache", content)
        kept[cores] = memory.pages, memory.done, {file: told for file, (_, told) in memory.checked.items()}
    assert kept[1] == kept[2]
    for never in ("check.check_guide", "pages.guide_pages", "pages.archive_pages", "memory.save_kept"):
        monkeypatch.setattr(f"guidegen.building.{never}", None)
    again = build(Order(content=content, out=tmp_path / "2/site", cache=tmp_path / "2/cache"))
    assert again.counts is not None
    assert again.counts.written == 0


def test_summaries_share_the_palettes_own_paints(content: Path, tmp_path: Path):
    """Else a thousand guides would keep thousands of copies of them."""
    memory = Memory()
    made(content, tmp_path, cores=2, memory=memory)
    assert memory.palette_tools is not None
    pots = {id(paint) for paint in memory.palette_tools.palette.paints}
    needs = [need for kept in memory.pages.values() if kept.summary for need in kept.summary.needs]
    assert len(needs) > GUIDES
    assert {id(need.paint) for need in needs} <= pots


def test_what_stands_in_for_paints_is_worked_out_by_all_cores(content: Path, tmp_path: Path):
    """Where many are asked for; pots and recipes name the palette's own paints, and are those that one process finds."""
    memory = Memory()
    made(content, tmp_path, cores=2, memory=memory)
    tools = memory.palette_tools
    assert tools is not None
    pots = {id(paint) for paint in tools.palette.paints}
    alone = StandIns(Mixer(tools.palette))
    lacking = [paint for paint in tools.palette.paints if not paint.owned]
    assert len(lacking) > MANY_FOR_FORKS
    for paint in lacking:
        found = tools.stand_ins.advised(paint)
        assert found == alone.advised(paint)
        assert {id(near.paint) for near in found.pots} <= pots
        assert {id(pot) for recipe in found.recipes for pot, _ in recipe.parts} <= pots


def test_a_palette_edit_comes_to_the_site_of_a_build_from_nothing(
    content: Path, tmp_path: Path, started: list[object]
):
    memory = Memory()
    made(content, tmp_path, cores=2, memory=memory)
    palette = content / "palette.yaml"
    text = palette.read_text()
    # The undercoat of every guide.
    palette.write_text(
        text.replace('code: R0, kind: paint, colour: "#', 'code: R0, kind: paint, note: thick, colour: "#')
    )
    assert palette.read_text() != text
    before = len(started)
    edited = made(content, tmp_path, cores=2, memory=memory)
    assert len(started) >= before + 2
    assert edited == made(content, tmp_path / "fresh", cores=1)


def test_few_guides_start_no_process(content: Path, tmp_path: Path, started: list[object]):
    made(content, tmp_path, cores=2)
    before = len(started)
    guide = content / "guides" / "watch-0005" / "guide.md"
    guide.write_text(guide.read_text() + "Once more.\n")
    made(content, tmp_path, cores=2)
    assert len(started) == before


# A worker that comes to its end over one guide, as when the system is out of memory.
DYING = """
import os, signal, sys
import guidegen.building.{module} as module
kept = module.{name}
def dies(*given, **more):
    if given[0].slug == "watch-0007":
        os.kill(os.getpid(), signal.{signal})
    return kept(*given, **more)
module.{name} = dies
sys.argv = ["guidegen", *sys.argv[1:]]
from guidegen.base import workers
workers.usable_cores = lambda: 2
from guidegen.__main__ import main
main()
"""


@pytest.mark.skipif(sys.platform != "linux", reason="workers are forks, so that they have the fault too")
@pytest.mark.parametrize("signal", ["SIGKILL", "SIGSEGV"])
@pytest.mark.parametrize(("module", "name"), [("check", "case_of"), ("pages", "guide_pages")])
def test_a_dead_worker_is_told_with_its_guide_and_nothing_is_written(
    module: str, name: str, signal: str, content: Path, tmp_path: Path
):
    site = tmp_path / "site"
    places = {"--content": content, "--out": site, "--cache": tmp_path / "cache"}
    program = DYING.format(module=module, name=name, signal=signal)
    run = subprocess.run(
        [sys.executable, "-c", program, "build", *(str(word) for place in places.items() for word in place)],
        capture_output=True,
        text=True,
        env=os.environ,
        check=False,
        timeout=PATIENCE,
    )
    assert run.returncode == 2, run.stderr
    assert run.stderr.count("\n") == 2, run.stderr
    first, help_line = run.stderr.splitlines()
    assert "has crashed over “guides/watch-0007/guide.md”" in first
    assert "Nothing was written." in help_line
    assert run.stdout == ""
    assert not site.exists()
