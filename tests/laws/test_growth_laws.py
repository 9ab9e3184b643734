"""Twice the input takes about twice the work: calls, copies and differences are counted, never time."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from support.paints import palette_of, pot

from guidegen.base.source import Source, Span
from guidegen.commands.paint_list import palette_from
from guidegen.computing.colour import closest as matching
from guidegen.computing.colour.closest import Matcher
from guidegen.computing.colour.spaces import delta_e_2000
from guidegen.model.names import Name
from guidegen.model.paint import Palette
from guidegen.reading.content.chart import read_chart
from guidegen.reading.content.palette_names import astray
from guidegen.reading.yaml import recovery
from guidegen.reading.yaml.nodes import tree_of
from guidegen.rendering.guide.chart_pictures import body_of, drawing_of, picture, shapes

# What is there once weighs less with more input, so twice is never quite reached; squares come to four.
TWICE = 2.3


def calls(work: Callable[[], object]) -> int:
    """How many functions of Python's are called, a generator's every step among them."""
    count = 0

    def heard(_frame: object, event: str, _what: object) -> None:
        nonlocal count
        count += event == "call"

    sys.setprofile(heard)
    try:
        work()
    finally:
        sys.setprofile(None)
    return count


def test_shapes_of_a_chart():
    def drawn(count: int) -> int:
        marks = "".join(f'<path data-area="area {n % 20}" d="M{n} 0h1"/>' for n in range(count))
        text = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9">{marks}</svg>'
        chart, told = read_chart(Source(file="figure.svg", text=text))
        assert chart is not None
        assert told == ()
        drawing = drawing_of(chart, {})
        return calls(
            lambda: (
                shapes(drawing),
                picture(drawing, body_of(drawing, {}), key="k", title="t", description="d"),
            )
        )

    assert drawn(400) < TWICE * drawn(200)


def test_paints_without_colour_in_a_list(tmp_path: Path, capsys: pytest.CaptureFixture[str]):
    def listed(count: int) -> int:
        rows = (f"Pot {n},{'' if n % 2 else '#b8862f'}\n" for n in range(count))
        (tmp_path / "list.csv").write_text("name,colour\n" + "".join(rows))
        return calls(lambda: palette_from(tmp_path / "list.csv"))

    listed(2)  # imports count too
    assert listed(800) < TWICE * listed(400)


def test_keys_without_values():
    class Counted(str):
        __slots__ = ()
        copied = 0

        def __getitem__(self, part):
            piece = str.__getitem__(self, part)
            Counted.copied += len(piece)
            return piece

    text = Counted("a:\n" * 1_000)
    assert tree_of(Source(file="palette.yaml", text=text)).root is not None
    assert Counted.copied < 5 * len(text)


def test_paints_of_one_colour_of_which_none_is_at_home():
    def searched(count: int) -> int:
        palette = palette_of(*(pot(f"Jar {n}", "#b8862f") for n in range(count)))
        matcher = Matcher(palette)
        return calls(lambda: [matcher.closest_owned(paint) for paint in palette.paints])

    assert searched(200) < TWICE * searched(100)


def test_a_name_that_many_paints_share():
    def told(count: int) -> int:
        palette = palette_of(*(pot("Ropewalk", "#b8862f", range=f"Range {n}") for n in range(count)))
        name = Name(text="Ropewalk", span=Span.of_file("palette.yaml"))
        (diagnostic,) = astray(name, palette.find(name.text), palette, "Step 1 paints with", whole=True)
        assert f" or {count - 8} more." in diagnostic.message
        return len(diagnostic.message) + len(diagnostic.related)

    assert told(200) < 1.1 * told(100)


def random_palette(count: int) -> Palette:
    colours = np.random.default_rng(count).integers(0, 1 << 24, count).tolist()
    return palette_of(*(pot(f"Jar {n}", f"#{c:06x}", owned=n % 2) for n, c in enumerate(colours)))


def test_most_paints_are_passed_over_before_their_difference_is_worked_out(monkeypatch: pytest.MonkeyPatch):
    """And what is worked out for a paint once is not worked out again for the shelf at home and the shops."""
    worked_out = 0

    def counted(one, others):
        nonlocal worked_out
        worked_out += len(others)
        return delta_e_2000(one, others)

    monkeypatch.setattr(matching, "delta_e_2000", counted)
    palette = random_palette(600)
    matcher = Matcher(palette)
    for paint in palette.paints:
        matcher.closest(paint)
        matcher.closest_owned(paint)
        matcher.closest_still_sold(paint)
    assert worked_out < len(palette.paints) ** 2 / 8


@pytest.mark.parametrize(
    "slips",
    [
        "  - step: A\n    area:coat\n   each: 1\n",
        'title: "x\n',
        "a: [x, {y:\n",
        "\t- step: A\n\t  area:coat\n",
    ],
)
def test_a_text_of_nothing_but_slips(slips: str, monkeypatch: pytest.MonkeyPatch):
    """Reading begins anew behind each slip, for as many characters as are allowed in all."""
    monkeypatch.setattr(recovery, "MOST_CHARACTERS", 100_000)

    def read(characters: int) -> int:
        text = "steps:\n" + slips * (characters // len(slips))
        return calls(lambda: tree_of(Source(file="a.yaml", text=text)))

    assert read(20_000) < TWICE * read(10_000)
