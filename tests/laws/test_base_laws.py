"""Laws of names, places and times."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from guidegen.base.source import Source
from guidegen.base.suggest import distance, folded, nearest
from guidegen.base.units import LONGEST, MINUTE, iso_duration, print_duration, read_colour, read_duration

words = st.text(alphabet="abcd", max_size=7)


def plain_distance(left: str, right: str) -> int:
    """Optimal string alignment by its definition, over the whole table (Boytsov, ACM JEA 16, 2011, section 2.2)."""
    table = [[i + j if not i or not j else 0 for j in range(len(right) + 1)] for i in range(len(left) + 1)]
    for i, a in enumerate(left, 1):
        for j, b in enumerate(right, 1):
            best = min(table[i - 1][j] + 1, table[i][j - 1] + 1, table[i - 1][j - 1] + (a != b))
            if i > 1 and j > 1 and a == right[j - 2] and left[i - 2] == b:
                best = min(best, table[i - 2][j - 2] + 1)
            table[i][j] = best
    return table[-1][-1]


@given(words, words, st.integers(0, 8))
def test_edits_agree_with_their_definition_up_to_the_limit(left: str, right: str, limit: int):
    assert distance(left, right, limit) == min(plain_distance(left, right), limit + 1)


@given(st.text(max_size=20))
def test_folding_twice_is_folding_once(text: str):
    once = folded(text)
    assert folded(once) == once
    assert folded(f" {text}\t") == once


@given(st.text(max_size=20))
def test_case_makes_no_difference_where_unicode_knows_it(text: str):
    assert folded(text.casefold()) == folded(text)


@given(st.lists(words.filter(bool), max_size=5), words.filter(bool))
def test_a_known_name_is_nearest_to_itself(known: list[str], name: str):
    assert nearest(name, [*known, name]) == name


@given(st.text(alphabet="ab\n é😀", max_size=40), st.data())
def test_places_lead_back(text: str, data: st.DataObject):
    source = Source(file="a", text=text)
    offset = data.draw(st.integers(0, len(text)))
    line, column = source.position(offset)
    assert source.offset(line, column) == offset
    assert source.line(line)[: column - 1] == text[:offset].rpartition("\n")[2]


@given(st.text(alphabet="ab\n", max_size=30))
def test_lines_make_the_file(text: str):
    source = Source(file="a", text=text)
    assert "\n".join(source.line(n) for n in range(1, len(source.starts) + 1)) == text


@given(st.integers(0, LONGEST))
def test_times_are_read_as_they_are_printed(milliseconds: int):
    assert read_duration(print_duration(milliseconds)) == milliseconds
    assert read_duration(iso_duration(milliseconds)) == milliseconds


@given(st.integers(0, 100_000))
def test_a_plain_number_is_minutes(minutes: int):
    assert read_duration(str(minutes)) == minutes * MINUTE


@given(st.text(max_size=12))
def test_no_text_upsets_the_readers(text: str):
    colour = read_colour(text)
    assert colour is None or read_colour(colour) == colour
    time = read_duration(text)
    assert time is None or 0 <= time <= LONGEST
