"""Figure charts: what is let through, what is told."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.paths import CONTENT, TEMPLATES

from guidegen.base.source import Source
from guidegen.model.chart import AreaPart
from guidegen.reading.content.chart import PRESENTATION, SHAPES, read_chart

STARTERS = TEMPLATES / "charts"


def read(body: str, attributes: str = 'viewBox="0 0 100 100"'):
    text = f'<svg xmlns="http://www.w3.org/2000/svg" {attributes}>{body}</svg>'
    return read_chart(Source(file="guides/ferry-watch/figure.svg", text=text))


def test_areas_come_from_shapes_and_their_groups():
    chart, told = read(
        '<g data-area="coat"><path d="M0 0h9v9z"/><circle data-area="scarf" cx="1" cy="2" r="3"/></g>'
        '<rect x="1" y="2" width="3" height="4" fill="#111"/>'
    )
    assert told == ()
    assert chart.areas == ("coat", "scarf")
    assert [piece.area for piece in chart.pieces] == ["coat", "scarf", ""]


def test_an_area_gives_its_fill_to_the_guide_and_lines_keep_theirs():
    chart, _ = read(
        '<path data-area="coat" fill="#ff0000" d="M0 0h9z"/><path data-area="coat" fill="none" stroke="#222" d="M1 1h2"/>'
    )
    assert "#ff0000" not in chart.pieces[0].markup
    assert chart.pieces[1].area == ""
    assert 'stroke="#222"' in chart.pieces[1].markup


def test_parts_and_variants():
    chart, _ = read(
        '<g data-area="hood" data-only="headgear: hood"><path d="M0 0z"/><path data-part="edge" d="M1 1z"/></g>'
    )
    assert [piece.relief for piece in chart.pieces] == [AreaPart.FLATS, AreaPart.EDGES]
    assert {piece.only for piece in chart.pieces} == {("headgear", "hood")}


def test_styles_of_drawing_programs_are_understood():
    chart, told = read('<path style="fill:#00ff00;stroke-width:2;font-family:x" d="M0 0z"/>')
    assert told == ()
    assert chart.pieces[0].markup == '<path fill="#00ff00" stroke-width="2" d="M0 0z"/>'


def test_transforms_of_groups_are_kept_in_order():
    chart, _ = read(
        '<g transform="translate(1 2)"><g transform="scale(2)"><path transform="rotate(3)" d="M0 0z"/></g></g>'
    )
    assert 'transform="translate(1 2) scale(2) rotate(3)"' in chart.pieces[0].markup


HOSTILE = {
    "script": "<script>alert(1)</script>",
    "foreignObject": "<foreignObject><body/></foreignObject>",
    "handler": '<path onload="alert(1)" d="M0 0z"/>',
    "link": '<a href="javascript:alert(1)"><path d="M0 0z"/></a>',
    "image": '<image href="https://ferry.example/x.png"/>',
    "use": '<use href="https://ferry.example/x.svg#a"/>',
    "style": "<style>@import url(https://ferry.example/x.css);</style>",
    "animation": '<path d="M0 0z"><animate attributeName="href" values="javascript:alert(1)"/></path>',
    "paint from elsewhere": '<path fill="url(https://ferry.example/x#a)" d="M0 0z"/>',
    "style from elsewhere": '<path style="fill:url(https://ferry.example/x#a)" d="M0 0z"/>',
}


@pytest.mark.parametrize("body", HOSTILE.values(), ids=HOSTILE)
def test_what_could_act_or_fetch_is_told_and_left_out(body):
    chart, told = read(body + '<path data-area="coat" d="M1 1z"/>')
    assert [diagnostic.code for diagnostic in told] == ["bad-chart"]
    assert told[0].help
    markup = "".join(piece.markup for piece in chart.pieces)
    assert not re.search(r"alert|ferry\.example|on\w+=|url|href", markup)


def test_a_scripts_line_is_named():
    _, told = read('<path d="M0 0z"/>\n<script>1</script>')
    assert told[0].span.line == 2


@pytest.mark.parametrize(
    "text",
    [
        "",
        "no drawing",
        "<svg",
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"/>',
        '<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0z"/></svg>',
        '<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1 1"><path d="&a;"/></svg>',
        '<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/hostname">]><svg viewBox="0 0 1 1"><path d="&a;"/></svg>',
        '<svg viewBox="0 0 1 1">' + "<g>" * 5_000 + "</g>" * 5_000 + "</svg>",
        '<svg viewBox="0 0 1 1">' + '<path d="M0 0z"/>' * 5_000 + "</svg>",
        " " * 500_000,
    ],
    ids=lambda text: text[:40] or "empty",
)
def test_what_cannot_be_used_is_one_sentence(text):
    _, told = read_chart(Source(file="figure.svg", text=text))
    assert [diagnostic.code for diagnostic in told] == ["bad-chart"]


@pytest.mark.parametrize("file", sorted(STARTERS.glob("*.svg")), ids=lambda file: file.stem)
def test_starter_charts_pass_as_they_are(file):
    chart, told = read_chart(Source.from_bytes(file.name, file.read_bytes()))
    assert told == ()
    assert len(chart.areas) >= 5
    assert chart.title


ATTRIBUTE = st.sampled_from(["d", "fill", "style", "onclick", "href", "data-area", "transform", "x", "class"])
VALUE = st.text(alphabet="M0 1z#()url:javascript;'&lt;%-.", max_size=30)
ELEMENT = st.sampled_from(["path", "g", "script", "rect", "use", "text", "a", "circle", "style"])


@given(st.lists(st.tuples(ELEMENT, ATTRIBUTE, VALUE), max_size=6))
def test_only_listed_elements_and_attributes_come_out(shapes):
    body = "".join(
        f'<{element} {attribute}="{value.replace("&", "").replace("<", "")}"/>'
        for element, attribute, value in shapes
    )
    chart, _ = read(body + '<path d="M0 0z"/>')
    markup = "".join(piece.markup for piece in chart.pieces)
    assert set(re.findall(r"<(\w+)", markup)) <= SHAPES.keys()
    forms = frozenset().union(*SHAPES.values())
    assert set(re.findall(r'([\w-]+)="', markup)) <= PRESENTATION | forms | {"transform"}
    assert "url(" not in markup


HANDBOOK = CONTENT / "guides" / "draw-a-figure"


def test_the_handbooks_drawings_are_charts():
    text = (HANDBOOK / "guide.md").read_text(encoding="utf-8")
    snippets = re.findall(r"```xml\n(.*?)```", text, re.DOTALL)
    assert len(snippets) == 3
    for snippet in (*snippets, (HANDBOOK / "figure.svg").read_text(encoding="utf-8")):
        chart, told = read_chart(Source(file="figure.svg", text=snippet))
        assert told == ()
        assert chart.areas
