"""A small part of the fuzzing, the same inputs in every run: a site or diagnostics, and nothing else comes of them."""

from __future__ import annotations

import random
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from abuse.fuzzing import GUIDE, KINDS, around, laid_out, tried
from abuse.ordeal import Ordeal
from support.content_folders import put

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(sys.platform != "linux", reason="only Linux tells what a process uses and opens"),
]

# Fewer of what takes longer; those that once failed come on top.
INPUTS = {"yaml": 6, "guide": 6, "markdown": 6, "chart": 5, "plan": 5, "names": 4, "photo": 5}
FAILED_ONCE = {"names": (97, 134, 188, 274, 343, 416), "photo": (14, 22)}


@pytest.fixture(scope="module")
def ordeal(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ordeal]:
    worker = Ordeal(tmp_path_factory.mktemp("ordeal"))
    yield worker
    worker.close()


@pytest.mark.parametrize("kind", KINDS)
def test_a_site_or_diagnostics(kind: str, ordeal: Ordeal):
    for number in (*range(INPUTS[kind]), *FAILED_ONCE.get(kind, ())):
        outcome = tried(kind, number, 11, ordeal)
        assert outcome.failures == (), f"--seed 11 --only {kind} --from {number}: {outcome.failures[0]}"
        assert outcome.exit in (0, 1)


def test_what_the_hostile_file_is_put_into_is_sound(ordeal: Ordeal):
    content, scratch = ordeal.cleared(), ordeal.scratch
    put(content, around())
    command = [
        "build",
        "--remove-many",
        "--content",
        str(content),
        "--out",
        str(scratch / "site"),
        "--cache",
        str(scratch / "cache"),
    ]
    outcome = ordeal.put(command)
    assert (outcome.exit, outcome.failures) == (0, ())


def test_the_same_number_is_the_same_input(tmp_path: Path):
    folders = [tmp_path / "one" / "content", tmp_path / "two" / "content"]
    commands = [laid_out("guide", 5, 11, folder) for folder in folders]
    assert len({folder.joinpath(GUIDE).read_bytes() for folder in folders}) == 1
    assert [word for word in commands[0] if "one" not in word] == [
        word for word in commands[1] if "two" not in word
    ]


TRAPS = {
    "a write elsewhere": "Path('elsewhere.txt').write_text('x')",
    "a process": "__import__('subprocess').run(['true'])",
    "a traceback": "1 / 0",
    "words on the terminal": "__import__('os').write(2, b'noise')",
    "death": "__import__('os').kill(__import__('os').getpid(), 11)",
}


@pytest.mark.parametrize("trap", sorted(TRAPS))
def test_the_watch_sees(trap: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """A worker whose guidegen does what it must not is caught at it."""
    spoilt = tmp_path / "spoilt"
    spoilt.mkdir()
    (spoilt / "sitecustomize.py").write_text(
        "import click\nfrom pathlib import Path\n"
        f"def main(self, *args, **named):\n    {TRAPS[trap]}\n    click.echo('told')\n"
        "click.Group.main = main\n",
        encoding="utf-8",
    )
    monkeypatch.setattr("abuse.ordeal.ON_THE_PATH", f"{spoilt}:{Path(__file__).resolve().parents[2]}")
    worker = Ordeal(tmp_path / "scratch")
    outcome = worker.put(["check", "--content", str(worker.cleared())])
    worker.close()
    assert outcome.failures


def test_seeds_differ():
    assert KINDS["guide"](random.Random("1 guide 0")) != KINDS["guide"](random.Random("2 guide 0"))
