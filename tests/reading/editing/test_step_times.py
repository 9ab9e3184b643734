"""Times put into steps, however these are written."""

from __future__ import annotations

import pytest

from guidegen.base.source import Source
from guidegen.base.units import MINUTE
from guidegen.reading.content.guide import read_guide
from guidegen.reading.editing.fixes import with_fixes
from guidegen.reading.editing.step_times import TIME_KEYS, time_fixes


@pytest.mark.parametrize(
    ("step", "expected"),
    [
        ("{step: Coats, paint: none, each: 4 min}", "{step: Coats, paint: none, once: 1 min, each: 5 min}"),
        ("{step: Coats, paint: none, each: 1,5 h}", "{step: Coats, paint: none, once: 1 min, each: 5 min}"),
        ("{paint: none, rest: yes}", "{paint: none, rest: yes}"),
    ],
    ids=["plain", "decimal comma", "no place"],
)
def test_times_come_in_beside_what_is_there(step: str, expected: str):
    data = f"---\ntitle: Eels\nsteps:\n  - {step}\n---\n".encode()
    source = Source.from_bytes("guides/eels.md", data)
    guide, _ = read_guide(source, slug="eels")
    assert guide is not None
    fixes = time_fixes(source, guide.steps[0], MINUTE, 5 * MINUTE)
    after, _ = with_fixes(source, data, fixes, may_add=TIME_KEYS)
    assert after.decode() == f"---\ntitle: Eels\nsteps:\n  - {expected}\n---\n"
