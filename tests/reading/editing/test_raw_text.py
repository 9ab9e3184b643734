"""Places of a source in the bytes it was read from."""

from __future__ import annotations

import pytest

from guidegen.base.source import Source
from guidegen.reading.editing.raw_text import RawText


@pytest.mark.parametrize("mark", ["", "\ufeff"])
@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_text_goes_where_its_source_says_with_the_line_ends_of_the_file(mark: str, end: str):
    data = (mark + f"one{end}two{end}").encode()
    source = Source.from_bytes("palette.yaml", data)
    raw = RawText(data)
    at = raw.offset(*source.position(source.text.index("two")))
    assert raw.replace(at, at + 3, "2\n3") == "two"
    assert raw.text == mark + f"one{end}2{end}3{end}"
