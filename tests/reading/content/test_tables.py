"""The tables of keys are those that authors are promised, and the case of every key has them all."""

from __future__ import annotations

import pytest
from support.content_folders import files_of
from support.every_key import CASE

from guidegen.reading.content.guide import GUIDE, GUIDE_DEFAULTS, MADE
from guidegen.reading.content.paints import LET_DOWN, MIX, PAINT, PALETTE, RANGE
from guidegen.reading.content.plan import PLAN, UNIT
from guidegen.reading.content.plan_values import CHANGE
from guidegen.reading.content.reference import REFERENCE, SWATCH
from guidegen.reading.content.shared import SHARED
from guidegen.reading.content.site import DEFAULTS, SITE
from guidegen.reading.content.steps import DRY, INSERT, STEP, STOP
from guidegen.reading.types.items import ITEM
from guidegen.reading.types.keys import Record
from guidegen.reading.types.names import INSTEAD
from guidegen.reading.types.photos import PHOTO

# Word for word; + stands before the other spelling of a key.
PROMISED: tuple[tuple[Record, str], ...] = (
    (
        SITE,
        "title summary author people licence +license contact url feed_id gone language timezone currency format tokens defaults meant cure",
    ),
    (DEFAULTS, "figures scale base batch range technique dry holds brush thin"),
    (GUIDE_DEFAULTS, "technique dry holds brush thin figures scale base"),
    (PALETTE, "ranges paints mixes"),
    (RANGE, "size price thinner drop note"),
    (
        PAINT,
        (
            "name range code edition usual aliases was kind colour +color colour_from +color_from finish covers binder comes_as size price owned discontinued "
            "twin_of note hazards strength let_down"
        ),
    ),
    (LET_DOWN, "colour +color parts white"),
    (MIX, "name parts kind colour +color strength aliases note credit owned size mixed"),
    (SHARED, "steps"),
    (
        GUIDE,
        (
            "title summary author credit licence +license video language kind date published updated tags see was defaults draft scale base surface figures "
            "batch cover figure materials tools reference made leave meant choose steps"
        ),
    ),
    (ITEM, "name for amount cautions"),
    (REFERENCE, "file alt source swatches"),
    (SWATCH, "name colour +color"),
    (MADE, "date figures minutes choose mixed by used note"),
    (PHOTO, "file alt caption by licence +license"),
    (
        STEP,
        (
            "step id technique area paint once each dry holds rest coats brush thin share amount instead photo alt at mind "
            "look_for if_wrong spots stray optional only materials tools"
        ),
    ),
    (DRY, "air warm"),
    (INSTEAD, "paint note"),
    (STOP, "stop"),
    (INSERT, "insert"),
    (PLAN, "title start deadline sittings spraying skip change set_up clean_up cure from units"),
    (CHANGE, "paint mix metal airbrush"),
    (UNIT, "guide figures batch to choose mixed trial done without"),
)


@pytest.mark.parametrize(("record", "words"), PROMISED, ids=lambda value: getattr(value, "noun", ""))
def test_tables_are_as_promised(record: Record, words: str):
    assert set(record.by_word) == {word.removeprefix("+") for word in words.split()}
    assert [key.name for key in record.keys] == [word for word in words.split() if word[0] != "+"]


def test_the_case_uses_every_key():
    text = b"\n".join(data for path, data in files_of(CASE).items() if not path.endswith(".jpg")).decode()
    for record, _ in PROMISED:
        for key in record.keys:
            assert any(f"{word}:" in text for word in (key.name, *key.also)), f"{record.noun}: {key.name}"
