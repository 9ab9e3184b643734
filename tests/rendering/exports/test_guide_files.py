"""What travels with a guide, read back by other readers."""

from __future__ import annotations

import csv
import io
import json
import re
from dataclasses import replace

import pytest
from support import town

from guidegen.computing.guide.computed_guide import PaletteTools, compute_guide
from guidegen.model.guide import Step
from guidegen.reading.paint_lists.any_list import read_palette_text
from guidegen.reading.paint_lists.gimp_palette import read_gpl
from guidegen.reading.paint_lists.rows import row_of
from guidegen.rendering.exports.guide_files import chapters_vtt, exports_of, paints_text, palette_exports
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.page.urls import PALETTE_CSV, PALETTE_GPL
from guidegen.rendering.theme.assets import Assets

MINUTE = 60_000
TIME = re.compile(r"(\d{2,}):([0-5]\d):([0-5]\d)\.(\d{3})")


def desk_of(archive):
    palette_tools = PaletteTools.over(archive.palette)
    return SiteContext.of(
        archive, palette_tools, Assets(style="a.css", script="a.js", icon="a.svg")
    ), palette_tools


@pytest.fixture
def made():
    archive = town.archive()
    context, palette_tools = desk_of(archive)
    return compute_guide(archive.guide("ferry-watch"), palette_tools), context


def filmed(computed, **at):
    """The same guide with its first steps at these moments of a film, and those titles."""
    steps = list(computed.scheme.steps)
    for index, (title, moment) in enumerate(at.items()):
        step = replace(steps[index].step, title=title.replace("_", " "), at=moment)
        steps[index] = replace(steps[index], step=step)
    return replace(computed, scheme=replace(computed.scheme, steps=tuple(steps)))


def test_the_table_is_read_by_another_reader(made):
    computed, context = made
    rows = list(csv.DictReader(io.StringIO(exports_of(computed, context)["materials.csv"].decode())))
    assert [row["name"] for row in rows][: len(computed.needs)] == [
        need.paint.name for need in computed.needs
    ]


def test_the_palette_has_every_colour_once(made):
    computed, context = made
    text = exports_of(computed, context)["palette.gpl"].decode()
    assert text.startswith("GIMP Palette\n")
    read = read_gpl(text)
    assert not read.problems
    coloured = [need.paint.colour for need in computed.needs if need.paint.colour]
    assert [row.colour for row in read.paints][: len(coloured)] == coloured


def test_the_data_is_json(made):
    computed, context = made
    assert json.loads(exports_of(computed, context)["guide.json"])["title"] == computed.guide.title


def test_no_chapters_without_a_film(made):
    computed, context = made
    entries = (replace(one, at=None) if isinstance(one, Step) else one for one in computed.guide.entries)
    bare = compute_guide(replace(computed.guide, entries=tuple(entries)), context.palette_tools)
    assert "chapters.vtt" not in exports_of(bare, context)
    assert "Chapters" not in paints_text(bare, context)


def test_paints_come_first_then_chapters_from_nought(made):
    computed, context = made
    lines = paints_text(filmed(computed, Lay_out=65_000, Prime=3_725_000), context).splitlines()
    assert lines[0] == computed.guide.title
    assert lines.index("Paints") < lines.index("Chapters")
    after = lines[lines.index("Chapters") + 1 :]
    assert after[0].startswith("0:00 ")
    assert "1:05 Lay out" in after
    assert "1:02:05 Prime" in after


def test_chapters_are_in_the_films_order_and_whole(made):
    computed, _ = made
    text = chapters_vtt(filmed(computed, LazyPage=90 * MINUTE, Sooner=MINUTE))
    assert text.startswith("WEBVTT\n\n")
    cues = text.split("\n\n")[1:]
    starts = []
    for cue in cues:
        _, times, title = cue.strip().split("\n")
        start, end = times.split(" --> ")
        assert TIME.fullmatch(start)
        assert TIME.fullmatch(end)
        assert start < end
        assert title
        starts.append(start)
    assert starts == sorted(starts)
    assert "00:01:00.000" in starts


def test_a_title_cannot_end_a_cue(made):
    computed, _ = made
    odd = "A --> B & <c>"
    steps = (replace(computed.scheme.steps[0], step=replace(computed.scheme.steps[0].step, title=odd, at=0)),)
    text = chapters_vtt(replace(computed, scheme=replace(computed.scheme, steps=steps)))
    assert "A --&gt; B &amp; &lt;c&gt;" in text
    assert text.count("-->") == 1


def test_the_whole_palette_comes_back():
    palette = town.archive().palette
    files = palette_exports(palette, "The town")
    read = read_palette_text(files[PALETTE_CSV].decode())
    assert not read.problems
    assert read.paints == tuple(map(row_of, palette.paints))
    colours = read_palette_text(files[PALETTE_GPL].decode())
    assert [row.colour for row in colours.paints] == [
        paint.colour for paint in palette.paints if paint.colour
    ]
