"""The size of type that a bench needs on one page of paper."""

from __future__ import annotations

from guidegen.rendering.guide.bench_sheet import TYPE_SIZES, SheetRow, size_for, subjects_of
from guidegen.rendering.guide.guide_view import CautionView

NAMES = [setting.name for setting in TYPE_SIZES]


def rows(count: int, letters: int = 30) -> list[SheetRow]:
    return [SheetRow(what=letters, paint=letters, rest=12, dabs=1, stops=0)] * count


def test_the_more_steps_the_smaller_the_type():
    sizes = [NAMES.index(size_for(rows(count))) for count in range(61)]
    assert sizes == sorted(sizes)
    assert sizes[0] == sizes[12] == 0
    assert sizes[40] > 0


def test_the_longer_the_words_the_smaller_the_type():
    sizes = [NAMES.index(size_for(rows(24, letters))) for letters in range(0, 200, 10)]
    assert sizes == sorted(sizes)
    assert sizes[-1] > sizes[0]


def test_what_fits_nowhere_gets_the_smallest():
    assert size_for(rows(400, 200)) == NAMES[-1]


def test_each_setting_has_its_rules():
    from support.rendered_town import TEMPLATES

    style = TEMPLATES.source("style/sheet.css")
    assert all(f".{name} " in style for name in NAMES[1:])


def test_cautions_are_named_once_with_the_codes_of_the_labels():
    def caution(subject: str, *codes: str) -> CautionView:
        return CautionView(
            subject=subject, statements=tuple((code, "text") for code in codes), source="", paints=()
        )

    found = subjects_of(
        [caution("Sprays", ""), caution("Label", "H222", "H229"), caution("Label", "H222", "H319")]
    )
    assert found == ("Sprays", "Label H222 H229 H319")
