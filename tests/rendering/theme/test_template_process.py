"""What templates of an author's own cost is bounded for the process that renders them, whatever it is spent on."""

from __future__ import annotations

import signal
import subprocess
import sys
import time
from contextlib import nullcontext
from pathlib import Path

import pytest
from support.content_folders import bytes_of, lay_out

from guidegen.building.build import Order, build
from guidegen.building.check import check
from guidegen.rendering.theme import template_process
from guidegen.rendering.theme.template_process import BrokenTemplateError, Budget
from guidegen.rendering.theme.templates import Templates, own_templates
from guidegen.words.language import language_of

pytestmark = pytest.mark.slow

CONTENT = """
» guides/lamp-boys.md
---
title: Lamp boys
steps:
  - {step: Mount, paint: none, each: 1 min}
---
"""
# Enough for every page of theirs many times over, and little to wait for.
SMALL = Budget(seconds=0.6, seconds_a_page=0.25, memory=200_000_000, page=2_000_000)
TIME, MEMORY, PAGE = "it takes too long", "it takes more than 200 MB of memory", "larger than 2 MB"

BUSY = "{% for i in range(99999999) %}{% for j in range(99999999) %}{% endfor %}{% endfor %}"
# What each says, what may be told of it, and on which lines; 1 where only the whole page has a line.
BOMBS = {
    "a macro that calls itself twice": (
        "{% macro m(n) %}{% if n %}{{ m(n - 1) }}{{ m(n - 1) }}{% endif %}{% endmacro %}\n{{ m(40) }}",
        {TIME},
        {1},
    ),
    "filler": ("\n{{ lipsum(n=1000000)|length }}", {TIME, MEMORY}, {2}),
    "a number times itself": (
        "{% set x = 1000000 ** 100 %}\n" + "{% set x = x * x %}\n" * 25,
        {TIME, MEMORY},
        set(range(2, 27)),
    ),
    "one power": ("\n{{ 1000000 ** 100000000 }}", {TIME, MEMORY}, {2}),
    "a text beside itself": (
        "{% set a = 'aa' %}\n" + "{% set a = a ~ a %}\n" * 32,
        {MEMORY},
        set(range(2, 34)),
    ),
    "wide lines": (
        "\n{% for i in range(100000) %}{{ ''|center(1000000) }}{% endfor %}",
        {TIME, MEMORY, PAGE},
        {1, 2},
    ),
    "a loop without an end": (f"\n{BUSY}", {TIME}, {2}),
    "templates in templates": ('\n{% include "parts/0.html" %}', {TIME}, {1}),
    "a page of any size": ("\n{{ 'x' * 3000000 }}", {PAGE}, {1}),
}
# Each takes in the next one twice.
DEEP = {f"parts/{n}.html": f'{{% include "parts/{n + 1}.html" %}}' * 2 for n in range(40)} | {
    "parts/40.html": ""
}
PLACES = {"404.html": "404.html", "base.html": "", "guide.html": "guides/lamp-boys/index.html"}

LINUX = pytest.mark.skipif(
    sys.platform != "linux", reason="elsewhere there are no bounds, or not all of them"
)


def laid_out(folder: Path, **templates: str) -> Order:
    content = lay_out(folder / "content", CONTENT)
    for name, text in templates.items():
        file = content / "templates" / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, encoding="utf-8")
    return Order(content=content, out=folder / "site", cache=folder / "cache")


def ours(name: str) -> str:
    return (own_templates() / name).read_text(encoding="utf-8")


@pytest.fixture
def small(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(template_process, "BUDGET", SMALL)


@LINUX
@pytest.mark.usefixtures("small")
@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("bomb", BOMBS)
def test_is_told_by_template_and_page(bomb: str, place: str, tmp_path: Path):
    text, words, lines = BOMBS[bomb]
    deep = DEEP if "include" in text else {}
    order = laid_out(tmp_path, **{place: text + ours(place)}, **deep)
    built = build(order)
    (told,) = built.diagnostics
    assert told.code == "bad-template"
    assert any(one in told.message for one in words), told.message
    assert f"(for {PLACES[place]}" in told.message
    assert told.span.file.startswith("templates/parts/" if deep else f"templates/{place}")
    assert told.span.line in lines
    assert built.counts is None
    assert not order.out.exists() or bytes_of(order.out) == {}


@LINUX
@pytest.mark.parametrize(("each", "ends"), [(0.0, True), (10.0, False)])
def test_pages_are_bounded_together(each: float, ends: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """None of them takes long, but ten thousand take longer than one page may."""
    monkeypatch.setattr(template_process, "BUDGET", Budget(seconds=0.5, seconds_a_page=each))
    (tmp_path / "404.html").write_text("{% for i in range(1000) %}{{ i }}{% endfor %}", encoding="utf-8")
    templates = Templates(language_of("en"), tmp_path)
    made = 0
    with pytest.raises(BrokenTemplateError, match=TIME) if ends else nullcontext():
        for _ in range(10_000 if ends else 500):
            made += bool(templates.render("404.html", {}))
    assert made


@LINUX
@pytest.mark.usefixtures("small")
def test_check_compiles_where_it_is_bounded(tmp_path: Path):
    """Filters of what is known are worked out while a template is compiled. No other is looked at after it."""
    text = ("{{ ''|center(10000000)" + "|upper|lower" * 100 + "|length }}") * 40
    order = laid_out(tmp_path, **{"404.html": text, "home.html": "{% if %}"})
    (told,) = check(order.content).diagnostics
    assert (told.code, told.span.file) == ("bad-template", "templates/404.html")
    assert TIME in told.message


@pytest.mark.parametrize(
    "text",
    ["{{ " + "-" * 1_900_000 + "1 }}", "{% for i in [] %}" * 30 + "{% endfor %}" * 30],
    ids=["signs", "loops"],
)
def test_what_is_too_deep_is_told(text: str, tmp_path: Path):
    (told,) = check(laid_out(tmp_path, **{"404.html": text}).content).diagnostics
    assert (told.code, told.span.file) == ("bad-template", "templates/404.html")


def test_two_good_templates_change_nothing_but_what_they_say(tmp_path: Path):
    plain, own = (
        laid_out(tmp_path / "plain"),
        laid_out(tmp_path / "own", **{name: ours(name) for name in ("base.html", "404.html")}),
    )
    assert build(plain).counts is not None
    assert build(own).counts is not None
    before, after = bytes_of(plain.out), bytes_of(own.out)
    assert {path for path in before if path.endswith(".html")}
    assert {path: data for path, data in before.items() if path.endswith(".html")} == {
        path: data for path, data in after.items() if path.endswith(".html")
    }


def test_without_templates_of_ones_own_no_process_is_started(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.delattr(subprocess, "Popen")
    assert build(laid_out(tmp_path)).counts is not None


def child_of(process: subprocess.Popen[bytes]) -> int | None:
    """The process that the other one started, if it did."""
    for file in Path("/proc").glob("[0-9]*"):
        try:
            parent = (file / "stat").read_text("utf-8").rpartition(")")[2].split()[1]
            if parent == str(process.pid) and "template_worker" in (file / "cmdline").read_text("utf-8"):
                return int(file.name)
        except OSError:
            continue
    return None


def started(program: list[str], folder: Path) -> tuple[subprocess.Popen[bytes], int]:
    """A program, once it has a process for templates, and that one's number."""
    with (folder / "said").open("wb") as said:
        process = subprocess.Popen([sys.executable, *program], stdout=said, stderr=said)
    while (child := child_of(process)) is None:
        assert process.poll() is None, (folder / "said").read_text("utf-8")
        time.sleep(0.01)
    return process, child


def runs(process: int) -> bool:
    try:
        return Path(f"/proc/{process}/stat").read_text("utf-8").rpartition(")")[2].split()[0] != "Z"
    except FileNotFoundError:
        return False


@LINUX
@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM])
def test_it_ends_with_the_build_that_is_stopped(tmp_path: Path, number: signal.Signals):
    order = laid_out(tmp_path, **{"404.html": BUSY})
    places = ["--content", str(order.content), "--out", str(order.out), "--cache", str(order.cache)]
    process, child = started(["-m", "guidegen", "build", *places], tmp_path)
    process.send_signal(number)
    assert process.wait() == 130
    # It was killed before; the system takes its time to take it off the list.
    while runs(child):
        time.sleep(0.01)


@LINUX
def test_it_ends_when_whoever_asked_is_killed_meanwhile(tmp_path: Path):
    program = """
import sys
from pathlib import Path
from guidegen.rendering.theme import template_process
from guidegen.rendering.theme.templates import Templates
from guidegen.words.language import language_of

template_process.BUDGET = template_process.Budget(seconds=1.0)
Templates(language_of("en"), Path(sys.argv[1])).render("404.html", {})
"""
    (tmp_path / "404.html").write_text(BUSY, encoding="utf-8")
    process, child = started(["-c", program, str(tmp_path)], tmp_path)
    process.kill()
    process.wait()
    while runs(child):
        time.sleep(0.01)
