"""Small files that would cost hours or gigabytes: each is bounded, and told in one sentence."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator

import pytest
from abuse.fuzzing import AROUND, CHART, GUIDE, PLAN, around
from abuse.ordeal import Ordeal
from support.content_folders import put as laid_out

pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(sys.platform != "linux", reason="only Linux tells what a process uses and opens"),
]

SVG = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">{}</svg>'
WEEK = "title: x\nstart: 2026-06-01\nsittings: {{mon-sun: {}}}\nunits:\n{}"
UNIT = "  - {guide: ferry-watch, figures: 10000, batch: 1}\n"
MINUTES = ", ".join(f'"{m // 60}:{m % 60:02}-{(m + 1) // 60}:{(m + 1) % 60:02}"' for m in range(1439))


def step(n: int, area: str = "coat", more: str = "") -> str:
    return f"  - {{step: S{n}, area: {area}, paint: Oilskin Ochre, each: 1 min{more}}}\n"


def guide(steps: str, more: str = "", body: str = "") -> dict[str, str]:
    """A guide in the place of the usual one, with a chart and a plan that fit any."""
    plan = WEEK.format('"20:00-22:00"', "  - {guide: ferry-watch, figures: 3}\n")
    text = f"---\ntitle: Bomb\n{more}steps:\n{steps}---\n{body}"
    return {GUIDE: text, CHART: SVG.format('<path data-area="coat" d="M0 0"/>'), PLAN: plan}


def options(count: int) -> str:
    return f"choose: {{a: [{', '.join(f'o{k}' for k in range(count))}]}}\n"


def palette(mixes: str) -> dict[str, str]:
    return {"palette/more.yaml": f"mixes:\n{mixes}"}


def mixed_twice(k: int) -> str:
    return f"  - {{name: m{k}, aliases: [n{k}], parts: {{m{k - 1}: 1, n{k - 1}: 2, Ropewalk: 1}}}}\n"


FIRST = "  - {name: m0, aliases: [n0], parts: {Oilskin Ochre: 1}}\n"
MANY = range(1, 3000)

# What it is, and what is told about it.
TOLD: dict[str, tuple[Callable[[], dict[str, str]], str]] = {
    "aliases": (lambda: {"site.yaml": "title: &a [x]\nauthor: *a\n"}, "which guidegen leaves out"),
    "merge": (lambda: {"site.yaml": "title: x\n<<: {author: y}\n"}, "The sign <<"),
    "depth": (lambda: {"site.yaml": "title: " + "[" * 400_000}, "more than 50 deep"),
    "a million steps": (lambda: guide("- {step: a}\n" * 100_000), "is larger than 500 kB"),
    "steps": (lambda: guide("- {step: a, paint: none, each: 1}\n" * 10_000), "more than 1,000 steps"),
    "steps of a list": (lambda: {"shared/x.yaml": "steps:\n" + "- {step: a, paint: none, each: 1}\n" * 10_000}, "more than 1,000 steps"),
    "coats": (lambda: guide("".join(step(n, more=", coats: 100") for n in range(100))), "10,000 coats together"),
    "strokes": (lambda: guide(step(1, more=", coats: 100") * 2, "figures: 10000\n"), "2,000,000 strokes"),
    "areas": (lambda: guide("".join(step(n, f"a{n}") for n in range(300))), "names 300 areas"),
    "layers": (
        lambda: guide("".join(step(n, f"a{n}") for n in range(190)) + step(1, "all") * 60), "touch 11,590 areas"
    ),
    "paints of steps": (
        lambda: guide("".join(step(n, more=f", instead: [{', '.join(['Ropewalk'] * 180)}]") for n in range(50))),
        "The steps name 9,050 paints",
    ),
    "different paints": (
        lambda: guide("".join(step(n, more=f", instead: [{', '.join(f'P{n}-{k}' for k in range(180))}]") for n in range(6))),
        "The steps name 1,081 different paints",
    ),
    "options": (lambda: guide(step(1), options(100)), "offers 100 options"),
    "pages": (lambda: guide("".join(map(step, range(200))), options(30)), "6,000 steps together"),
    "old addresses": (
        lambda: guide(step(1), f"was: [{', '.join(f'o{k}' for k in MANY)}]\n"), "2,999 entries under was"
    ),
    "figures of a plan": (lambda: {PLAN: WEEK.format('"0:00-24:00"', UNIT * 20)}, "1,200,000 strokes"),
    "jobs of a plan": (
        lambda: guide("".join(map(step, range(6)))) | {PLAN: WEEK.format('"8:00-22:00"', UNIT.replace("10000", "90") * 10)},
        "come to 5,400 jobs",
    ),
    "lines of a plan": (
        lambda: guide(step(1)) | {PLAN: WEEK.format('"8:00-8:01"', UNIT.replace("10000, batch: 1", "2600"))},
        "comes to 5,200 sittings and jobs",
    ),
    "days of a plan": (
        lambda: guide(step(1)) | {PLAN: WEEK.replace("mon-sun", "mon").format('"8:00-8:01"', UNIT.replace("10000, batch: 1", "1100"))},
        "goes on for 7,694 days",
    ),
    "sittings": (lambda: {PLAN: WEEK.format(f"[{MINUTES}]", UNIT)}, "1,439 stretches of hours under sittings"),
    "mixes in a row": (
        lambda: palette(FIRST + "".join(f"  - {{name: m{k}, parts: {{m{k - 1}: 1}}}}\n" for k in MANY[:1500])),
        "“m50” is made of mixes that are made of mixes, more than 50 deep",
    ),
    "hidden keys": (lambda: {"palette.yaml": f"{' ' * 3000}a #b\n" * 500}, "is lost"),
    "quotes": (lambda: {"site.yaml": 'title: "' + '\\"' * 200_000 + '\n"\nauthor: [,,'}, "Nothing stands before this comma"),
    "long text": (lambda: {GUIDE: AROUND + "a " * 5_000_000}, "is larger than 500 kB"),
    "one long line": (lambda: guide(step(1), body="a " * 100_000), "100,000 at most can be read"),
    "unknown keys": (
        lambda: guide("".join(step(n, more="".join(f", k{k}k: 1" for k in range(39))) for n in range(900))), "is no key"
    ),
    "unknown paints": (
        lambda: guide("".join(step(n, more=f", instead: [{', '.join(f'Ochr{k}' for k in range(190))}]") for n in range(40))),
        "which is not in the palette",
    ),
    "entities": (
        lambda: {CHART: '<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>' + SVG.format("<title>&b;</title>")},
        "abbreviations of its own",
    ),
    "defaults of a chart": (
        lambda: {CHART: f'<!DOCTYPE svg [<!ATTLIST path d CDATA "{"M0 0 " * 20000}">]>' + SVG.format("<path/>" * 3900)},
        "come to more than 800,000 characters",
    ),
    "turns of a chart": (
        lambda: {CHART: SVG.format(f'<g transform="{"rotate(1) " * 10_000}">{"<path/>" * 3900}</g>')},
        "is longer than 500 characters",
    ),
    "groups of a chart": (lambda: {CHART: SVG.format("<g>" * 9_000 + "</g>" * 9_000)}, "groups more than 40 deep"),
    "shapes of a chart": (lambda: {CHART: SVG.format("<path/>" * 50_000)}, "more than 4,000 shapes"),
    "a million elements": (lambda: {CHART: SVG.format("<g/>" * 1_000_000)}, "is larger than 2 MB"),
    "pieces of a chart": (
        lambda: guide("".join(map(step, range(100)))) | {
            CHART: SVG.format("".join(f'<path data-area="{"coat" if k % 2 else "hat"}" d="M0 0"/>' for k in range(100)))
        },
        "comes to 10,000 pieces",
    ),
    "areas of a chart": (
        lambda: {CHART: SVG.format("".join(f'<path data-area="a{k}"/>' for k in MANY))}, "more than 200 areas"
    ),
    "loops of a template": (
        lambda: {"templates/home.html": "{% set a = 'x' * 100000 %}{% for i in a %}{% for j in a %}{% endfor %}{% endfor %}"},
        "it takes too long; a page may take",
    ),
    "widths of a template": (lambda: {"templates/home.html": "{{ 'x'|center(10 ** 10) }}"}, "it takes more than 1,000 MB of memory"),
    "calls of a template": (lambda: {"templates/home.html": "{{ 'x'.ljust(10 ** 10) }}"}, "it takes more than 1,000 MB of memory"),
    "a large template": (lambda: {"templates/home.html": "x" * 2_000_001}, "as large as a template can be"),
}  # fmt: skip


@pytest.fixture(scope="module")
def ordeal(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Ordeal]:
    worker = Ordeal(tmp_path_factory.mktemp("ordeal"))
    yield worker
    worker.close()


def put(ordeal: Ordeal, files: dict[str, str], *, build: bool = True) -> tuple[int, str]:
    """Lay the files out among others and build, or check; AssertionError where it costs too much or anything fails."""
    content = ordeal.cleared()
    ours = {path: data.encode() if isinstance(data, str) else data for path, data in files.items()}
    laid_out(content, around() | ours)
    site = ["--out", str(ordeal.scratch / "site"), "--cache", str(ordeal.scratch / "cache")]
    outcome = ordeal.put(
        [
            *(("build", "--remove-many") if build else ("check",)),
            "--content",
            str(content),
            *(site if build else ()),
        ]
    )
    assert outcome.failures == ()
    return outcome.exit, " ".join(outcome.said.split())


@pytest.mark.parametrize("bomb", TOLD)
def test_is_bounded_and_told(bomb: str, ordeal: Ordeal):
    make, sentence = TOLD[bomb]
    code, said = put(ordeal, make())
    assert code == 1
    assert sentence in said


# Signs over and over, on which readers of Markdown and regular expressions take more than linear time.
TRAPS = (
    "![", "![](", "![](a ", "[", "]", "[a](", "[](", "![a](b)", "[a](#b)", "*a ", "a**b", "_a ", "`", "> ", ">", "- ", "1. ", "<", "<a ",
    "<!--", "<![CDATA[", "&", "&#1;", "\\", "[a]: b\n", "[a]: <", "|", "<http://a", "```\n", "# a\n", "a\n=\n", "~~a", "*a_ ", '[a](b "',
)  # fmt: skip


def test_markdown_that_repeats_itself(ordeal: Ordeal):
    for trap in TRAPS:
        code, _ = put(ordeal, guide(step(1), body=trap * (20_000 // len(trap))), build=False)
        assert code in (0, 1), trap


def test_quotes_and_lists_within_each_other(ordeal: Ordeal):
    deep = "".join(f"{'>' * k}a\n" for k in range(300)) + "".join(f"{' ' * k}- a\n" for k in range(300))
    assert put(ordeal, guide(step(1), body=deep + "*a **b " * 3000 + "[" * 3000 + "a" + "](b)" * 3000))[
        0
    ] in (0, 1)


def test_mixes_that_lead_to_each_other_by_many_ways(ordeal: Ordeal):
    """Two to the power of 44 ways lead from the last to the first."""
    assert put(ordeal, palette(FIRST + "".join(map(mixed_twice, range(1, 45)))))[0] == 0


def test_the_largest_that_may_be_is_no_bomb(ordeal: Ordeal):
    steps = "".join(step(n, more=", coats: 2") for n in range(900))
    assert put(ordeal, guide(steps, "figures: 500\n"))[0] == 0


def test_files_that_say_they_are_huge(ordeal: Ordeal):
    """They are refused by their size, without being read: that would take as much memory as they have bytes."""
    content = ordeal.cleared()
    laid_out(content, around())
    small = ordeal.put(["check", "--content", str(content)])
    sizes = {"guides/ferry-watch/coat.jpg": 300_000_000, "as-is/film.mp4": 1_000_000_001}
    for path, size in sizes.items():
        (content / path).parent.mkdir(exist_ok=True)
        with (content / path).open("ab") as file:
            file.truncate(size)  # on most disks such a file takes no room
    outcome = ordeal.put(["check", "--content", str(content)])
    assert (outcome.exit, outcome.failures) == (1, ())
    assert "a photo may have up to 256 MB" in outcome.said
    assert "a file of a site may have up to 1 GB" in outcome.said
    assert (outcome.peak_mb - small.peak_mb) * 1e6 < min(sizes.values()) / 2
