"""Laws of amounts, shopping, cautions, spray weather and palette files."""

from __future__ import annotations

import csv
import io
import re
from dataclasses import replace
from itertools import product

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st
from support import strategies
from support.languages import LANGUAGES
from support.paints import HERE
from support.spray_weather import dew_point, spray_weather

from guidegen.base.csv_cells import plain_cell, safe_cell, table
from guidegen.base.source import Source
from guidegen.computing.guide.caution_signs import step_paints
from guidegen.computing.guide.cautions import ALWAYS, cautions
from guidegen.computing.guide.hazards import HAZARDS, known, nearest_code, read_entry
from guidegen.computing.guide.materials import PaintNeed, paint_needs, pots_to_buy, shopping
from guidegen.computing.guide.scheme import Scheme, scheme_of
from guidegen.computing.guide.spraying import SprayVerdict
from guidegen.model.paint import COLOURLESS, Paint, Palette
from guidegen.model.technique import AIRBORNE
from guidegen.reading.content.palette import read_palette_file
from guidegen.reading.paint_lists.any_list import read_palette_text
from guidegen.reading.paint_lists.csv_list import read_csv, write_csv
from guidegen.reading.paint_lists.gimp_palette import read_gpl, write_gpl
from guidegen.reading.paint_lists.palette_file import double_quoted, palette_yaml
from guidegen.reading.paint_lists.rows import PaintRow, row_of
from guidegen.rendering.page.amounts import amount_text

pytestmark = pytest.mark.slow

volumes = st.floats(0, 500)


@st.composite
def used(draw: st.DrawFn) -> tuple[Palette, Scheme]:
    palette = draw(strategies.shelves())
    return palette, scheme_of(draw(strategies.using_guides(palette)), palette)


def by_name(needs: tuple[object, ...]) -> dict[str, float | None]:
    return {need.paint.name: need.ml for need in needs}


@given(used(), st.integers(1, 40))
def test_twice_the_figures_twice_the_amount(case: tuple[Palette, Scheme], figures: int):
    palette, scheme = case
    once = paint_needs(scheme, palette, figures)
    twice = paint_needs(scheme, palette, 2 * figures)
    assert [need.paint for need in once] == [need.paint for need in twice]
    for need, double in zip(once, twice, strict=True):
        if need.ml is None or need.drops is None:
            assert double.ml is None
        else:
            assert double.ml == pytest.approx(2 * need.ml)
            assert double.drops == pytest.approx(2 * need.drops)
        assert double.buy >= need.buy


@given(used(), st.integers(1, 10))
def test_steps_add_up(case: tuple[Palette, Scheme], figures: int):
    """A scheme needs what its steps need one by one."""
    palette, scheme = case
    summed: dict[str, float] = {}
    for step in scheme.steps:
        alone = Scheme(guide=scheme.guide, choice={}, steps=(step,), stops=(), areas=scheme.areas)
        for name, ml in by_name(paint_needs(alone, palette, figures)).items():
            if ml is not None:
                summed[name] = summed.get(name, 0.0) + ml
    whole = {
        name: ml for name, ml in by_name(paint_needs(scheme, palette, figures)).items() if ml is not None
    }
    assert whole == pytest.approx(summed)


@given(used(), st.integers(1, 30), st.integers(1, 30))
def test_a_plan_buys_no_more_than_its_units_and_enough(
    case: tuple[Palette, Scheme], figures: int, others: int
):
    palette, scheme = case
    units = [paint_needs(scheme, palette, count) for count in (figures, others)]
    for need, one, other in zip(shopping(units), *units, strict=True):
        if need.ml is not None:
            assert need.ml == pytest.approx((one.ml or 0) + (other.ml or 0))
        assert need.buy <= one.buy + other.buy + one.owned
        assert need.buy >= max(one.buy, other.buy)


@given(volumes, st.floats(0.5, 50), st.integers(0, 5))
def test_pots_to_buy_are_enough_and_not_one_too_many(ml: float, size: float, owned: int):
    buy = pots_to_buy(ml, size, owned)
    assert (buy + owned) * size >= ml * (1 - 1e-8) - 1e-8
    if buy:
        assert (buy + owned - 1) * size < ml
    assert pots_to_buy(ml, size, owned + 1) == max(0, buy - 1)


@given(volumes, st.sampled_from((0.03, 0.05, 0.1)))
def test_honest_words_have_two_figures_at_most(ml: float, drop: float):
    paint = Paint(name="Oilskin Ochre", colour="#b8862f", span=HERE)
    need = PaintNeed(paint=paint, steps=(1,), ml=ml, drops=ml / drop, owned=0, buy=1, cost=None)
    for language in LANGUAGES.values():
        words = amount_text(need, language)
        for word in words.split():
            digits = re.sub(r"[.,:]", "", word).lstrip("0").rstrip("0")
            assert not digits.isdigit() or len(digits) <= 2, words


@given(used())
def test_nothing_sprayed_goes_without_its_caution(case: tuple[Palette, Scheme]):
    palette, scheme = case
    found = cautions(scheme, palette)
    for key, airborne in (("sprays", AIRBORNE - {"airbrush"}), ("airbrush", {"airbrush"})):
        sprayed = {step.n for step in scheme.steps if step.technique.name in airborne}
        told = {n for caution in found if caution.key == key for n in caution.steps}
        assert sprayed <= told


@given(used())
def test_every_label_is_told_and_the_list_ends_with_deference(case: tuple[Palette, Scheme]):
    palette, scheme = case
    found = cautions(scheme, palette)
    assert found[-1].key == ALWAYS
    told = {(caution.code, n) for caution in found for n in caution.steps}
    for step in scheme.steps:
        for paint in step_paints(step, palette):
            for entry in paint.hazards:
                assert all((code.code, step.n) in told for code in read_entry(entry.text))
    firsts = [caution.steps[0] if caution.steps else 0 for caution in found[:-1]]
    assert firsts == sorted(firsts)
    assert len(found) == len(set(found))


@given(st.floats(-45, 60), st.floats(1, 100))
def test_the_dew_point_is_never_above_the_air(air: float, humidity: float):
    assert dew_point(air, humidity) <= air + 1e-9


@given(st.floats(5, 30), st.floats(1, 99))
def test_damper_air_has_a_higher_dew_point(air: float, humidity: float):
    assert dew_point(air, humidity + 1) > dew_point(air, humidity)


@given(st.floats(5, 30), st.floats(0, 30), st.floats(20, 100), st.floats(0, 20))
def test_a_warmer_figure_or_drier_air_never_makes_it_worse(
    air: float, surface: float, humidity: float, more: float
):
    order = (SprayVerdict.WAIT, SprayVerdict.DOUBTFUL, SprayVerdict.SPRAY)
    now = order.index(spray_weather(air, surface, humidity).verdict)
    assert order.index(spray_weather(air, surface + more, humidity).verdict) >= now
    assert order.index(spray_weather(air, surface, humidity - more / 2).verdict) >= now


@given(strategies.paint_rows())
def test_a_palette_survives_a_spreadsheet(rows: tuple[PaintRow, ...]):
    back = read_csv(write_csv(rows))
    assert back.paints == rows
    assert back.problems == ()


@given(strategies.paint_rows())
def test_a_palette_survives_its_file(rows: tuple[PaintRow, ...]):
    back = yaml.safe_load(palette_yaml(rows))["paints"]
    assert [(paint["name"], paint.get("range", ""), paint.get("note", "")) for paint in back] == [
        (row.name, row.range, row.note) for row in rows
    ]
    assert [paint["colour"] for paint in back] == [row.colour for row in rows]


@given(strategies.paint_rows())
def test_our_own_reader_takes_a_palette_file_without_a_word(rows: tuple[PaintRow, ...]):
    text = palette_yaml(rows, ["From a spreadsheet"])
    file, told = read_palette_file(Source(file="palette.yaml", text=text))
    assert told == ()
    coloured = [replace(row, colour=None) if row.kind in COLOURLESS else row for row in rows]
    assert [row_of(paint) for paint in file.paints] == coloured


@given(st.text(st.characters(exclude_categories=("Cs",)), max_size=30))
def test_whatever_is_quoted_is_read_as_it_was(text: str):
    line = double_quoted(text)
    assert "\n" not in line
    assert yaml.safe_load(line) == text


@given(
    st.lists(
        st.tuples(strategies.labels, strategies.hexes),
        max_size=4,
        unique_by=lambda entry: entry[0].casefold(),
    )
)
def test_a_gimp_palette_comes_back(entries: list[tuple[str, str]]):
    entries = [entry for entry in entries if entry[0].lower() != "untitled" and " / " not in entry[0]]
    back = read_gpl(write_gpl("Quay", entries))
    told = {row.name: row.colour for row in back.paints}
    assert back.title == "Quay"
    # Two names that fold to one are one paint to a palette, and the second is said.
    assert told.items() <= dict(entries).items()
    assert len(told) + len(back.problems) == len(entries)


@settings(max_examples=200)
@given(
    st.one_of(
        st.text(max_size=60),
        st.text(alphabet="name,;\t|\"'\n\r=#b8862f 0", max_size=80).map(lambda text: "name,hex\n" + text),
        st.text(alphabet="0123456789 \t\n#ab", max_size=80).map(lambda text: "GIMP Palette\n" + text),
    )
)
def test_no_text_upsets_the_reading(text: str):
    found = read_palette_text(text)
    for row in found.paints:
        assert row.name
        assert row.name.isprintable()
        assert row.colour is None or len(row.colour) == 7
    assert all(problem.line >= 1 for problem in found.problems)
    assert yaml.safe_load(palette_yaml(found.paints)) is not None


TEXTS = st.one_of(st.text(max_size=8), st.text(alphabet="'\"=+-@＝,;|\t\r\n x1", max_size=8))
FORMULA_SIGNS = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
CELLS = st.lists(st.lists(TEXTS, min_size=3, max_size=3), max_size=4)


@given(CELLS)
@example([["paint", "glue;=cmd|'/C calc'!A0;x", "2"]])
@example([["glue;", '"=x', ""], [';""', "=x", " ; \"'=x"]])
def test_no_cell_begins_a_formula_under_any_separator(rows: list[list[str]]):
    """Numbers may; spreadsheets part cells by each of these, with and without blanks taken away, or quotes heeded."""
    safe = [[safe_cell(cell) for cell in row] for row in rows]
    assert not any(cell.startswith(("\t", "\r")) for row in safe for cell in row)
    text = table(("what", "name", "ml"), safe).replace("\0", "")
    for separator, blanks, quoting in product(",;\t|", (False, True), (csv.QUOTE_MINIMAL, csv.QUOTE_NONE)):
        lines = csv.reader(
            io.StringIO(text, newline=""), delimiter=separator, skipinitialspace=blanks, quoting=quoting
        )
        for cell in (cell for line in lines for cell in line):
            assert not cell.strip().startswith(FORMULA_SIGNS), (separator, cell)


@given(CELLS)
def test_no_cell_is_lost(rows: list[list[str]]):
    plain = [[safe_cell(cell.replace("\0", "")) for cell in row] for row in rows]
    assert list(csv.reader(io.StringIO(table((), plain)[2:], newline=""), strict=True)) == plain


@given(st.one_of(TEXTS, st.text(alphabet="'=+-@x", max_size=6)))
def test_a_safe_cell_is_made_plain_again(text: str):
    assert plain_cell(safe_cell(text)) == text


@given(st.one_of(st.text(max_size=12), st.text(alphabet="EUH0123 +,:aFd", max_size=12)))
def test_no_entry_upsets_the_codes(text: str):
    assert known(text) == bool(read_entry(text))
    assert all(found.code in HAZARDS for found in read_entry(text))
    near = nearest_code(text)
    assert near is None or near in HAZARDS
