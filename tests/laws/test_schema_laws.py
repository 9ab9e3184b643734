"""An editor is never stricter than our own reading: what we take without a word, its schema takes."""

from __future__ import annotations

import re

import yaml
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from support import typed_files as badly
from support.yaml_core_schema import as_an_editor_reads

from guidegen.base.listing import Listing
from guidegen.base.source import Source
from guidegen.base.stamp import Stamp
from guidegen.reading.content.guide import GUIDE
from guidegen.reading.content.paints import MIX, PAINT, RANGE
from guidegen.reading.content.plan import PLAN, UNIT
from guidegen.reading.content.site import DEFAULTS, SITE, read_site
from guidegen.reading.content.steps import STEP
from guidegen.reading.editing.schemas import schema_of
from guidegen.reading.types.keys import Key, Record, read_record
from guidegen.reading.types.parse_context import ParseContext
from guidegen.reading.yaml.nodes import tree_of

TABLES = (GUIDE, STEP, PAINT, MIX, RANGE, SITE, DEFAULTS, PLAN, UNIT)
JUDGES = {table.noun: Draft202012Validator(schema_of(table)) for table in TABLES}
AROUND = Listing(
    {"finished.jpg": Stamp(1, 1, 1, 1), "coats.jpg": Stamp(1, 1, 1, 1), "sketch.jpg": Stamp(1, 1, 1, 1)}
)


def told(table: Record, text: str) -> bool:
    """Whether our reading has anything to say."""
    source = Source(file="x.yaml", text=text)
    context = ParseContext(source, AROUND)
    tree = tree_of(source)
    if table is SITE:
        # A later format is told once the table has been read.
        context.diagnostics += read_site(source)[1]
    elif tree.root is not None:
        read_record(table, tree.root, "", context)
    return bool(tree.diagnostics or context.diagnostics or tree.root is None)


def complete(table: Record, text: str) -> bool:
    """Whether what the rules ask for is there as well; reading itself does not tell of that."""
    return all(re.search(rf"\b{row.name}:", text) for row in table.keys if row.diagnosed_by_rules)


def agrees(table: Record, text: str) -> None:
    if told(table, text) or not complete(table, text):
        return
    try:
        values = as_an_editor_reads(text)
    except yaml.YAMLError:  # a # that our reading puts back, or the like
        return
    errors = [error.message for error in JUDGES[table.noun].iter_errors(values)]
    assert errors == [], text


@given(st.data())
def test_no_stricter_than_our_reading_of_anything(data: st.DataObject):
    table = data.draw(st.sampled_from(TABLES))
    agrees(table, data.draw(badly.typed(tuple(table.by_word))))


def _typed(row: Key) -> st.SearchStrategy[str]:
    """Ways to write the example of a key: as it is, in other case, in quotes, with its digits changed."""
    example = row.example or row.type.example
    bare = example.strip('"')
    ways = [example]
    if not re.search(r"[\[{]", example):
        ways += [bare.upper(), bare.title(), f'"  {bare} "', f"'{bare}'"]
    return st.one_of(
        st.sampled_from(ways),
        st.text("0123456789", min_size=1, max_size=3).map(lambda digits: re.sub(r"[0-9]+", digits, example)),
    )


@given(st.data())
def test_no_stricter_than_our_reading_of_what_is_nearly_right(data: st.DataObject):
    table = data.draw(st.sampled_from(TABLES))
    needed = [row for row in table.keys if row.required]
    more = data.draw(st.lists(st.sampled_from(table.keys), max_size=4, unique_by=lambda row: row.name))
    rows = {row.name: row for row in (*needed, *more)}
    if table is PAINT:
        rows |= {"colour": table.by_word["colour"]}
    text = "".join(f"{name}: {data.draw(_typed(row))}\n" for name, row in rows.items())
    agrees(table, text)


def test_examples_of_all_keys_together_are_read_and_accepted():
    """So the law above is not about nothing."""
    for table in TABLES:
        text = "".join(f"{row.name}: {row.example or row.type.example}\n" for row in table.keys)
        assert not told(table, text), text
        agrees(table, text)
