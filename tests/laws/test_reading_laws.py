"""Laws of reading: no text is too odd for it, every place lies in its file, and what is printed is read back."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable

from hypothesis import example, given
from hypothesis import strategies as st
from support import strategies as own
from support import typed_files as badly

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.listing import Listing
from guidegen.base.source import Source, Span
from guidegen.base.stamp import Stamp
from guidegen.base.units import HOUR, LONGEST, MINUTE, print_duration
from guidegen.reading.content.guide import GUIDE, read_guide
from guidegen.reading.content.paints import LET_DOWN, MIX, PAINT, PALETTE, RANGE
from guidegen.reading.content.palette import palette_of, read_palette_file
from guidegen.reading.content.plan import PLAN, UNIT, read_plan
from guidegen.reading.content.shared import read_shared
from guidegen.reading.content.site import DEFAULTS, SITE, read_site
from guidegen.reading.content.steps import STEP
from guidegen.reading.markdown.body import LINK_HOLDER, PHOTO_HOLDER
from guidegen.reading.types.sizes import ScaleOf
from guidegen.reading.types.time_words import read_time, turned_round
from guidegen.reading.types.times import Date, Duration, HoursOf, VideoTime
from guidegen.reading.types.values import Amount, Colour, Ratio, Share
from guidegen.reading.yaml.front_matter import split
from guidegen.reading.yaml.nodes import ListNode, MapNode, Node, Scalar, tree_of

FINISHED = Listing({"guides/ferry-watch/finished.jpg": Stamp(1, 1, 1, 1)})
PLACE = "guides/ferry-watch/guide.md"

# Words of programmers, which no painter should meet, beside what YAML's readers say of themselves.
NOT_A_PAINTERS = re.compile(
    r"\b(null|none type|mapping|parse|schema|invalid|token|scalar|expected <|traceback|exception|NoneType|yaml)\b",
    re.IGNORECASE,
)


def inside(span: Span, source: Source) -> bool:
    """Whether a span lies within its file and does not end before it begins."""
    lines = len(source.starts)
    return (
        span.file == source.file
        and 1 <= span.line <= span.end_line <= lines
        and 1 <= span.column <= len(source.line(span.line)) + 1
        and 1 <= span.end_column <= len(source.line(span.end_line)) + 1
        and (span.line, span.column) <= (span.end_line, span.end_column)
    )


def piece(span: Span, source: Source) -> str:
    """What stands at a span."""
    start = source.offset(span.line, span.column)
    return source.text[start : source.offset(span.end_line, span.end_column)]


def sound(diagnostics: Iterable[Diagnostic], source: Source) -> None:
    """Each says something, in words for people, about a place in the file."""
    for one in diagnostics:
        assert inside(one.span, source), (one, source.text)
        assert all(inside(related.span, source) for related in one.related)
        assert one.message.endswith((".", "…"))
        assert one.help
        own_words = re.sub("“[^”]*”", "", one.message)
        assert not NOT_A_PAINTERS.search(own_words), own_words


def scalars(node: Node | None) -> Iterable[Scalar]:
    if isinstance(node, Scalar):
        yield node
    elif isinstance(node, ListNode):
        for item in node.items:
            yield from scalars(item)
    elif isinstance(node, MapNode):
        for entry in node.entries:
            yield entry.key
            yield from scalars(entry.value)


@given(badly.scribbles)
@example("a: [" * 3000)
@example("&a [*a, *a]")
@example("a: {colour: #445566}\nb: [Red #2")
@example("{p: t\n : o")
def test_any_text_gives_a_tree_and_what_is_guessed_of_it_is_told(text: str):
    source = Source(file="palette.yaml", text=text)
    tree = tree_of(source)
    sound(tree.diagnostics, source)
    assert any(one.code == "bad-yaml" and one.fix is None for one in tree.diagnostics) == tree.broken


@given(badly.scribbles)
def test_a_plain_value_is_what_stands_at_its_place(text: str):
    tree = tree_of(Source(file="palette.yaml", text=text))
    for value in () if any(one.code == "bad-yaml" for one in tree.diagnostics) else scalars(tree.root):
        stands = text[value.start : value.end]
        if not value.style:
            assert value.value.split() == stands.split()
        elif value.style in "'\"":
            assert stands[0] == stands[-1] == value.style


@given(st.one_of(badly.scribbles, badly.typed(tuple(SITE.by_word) + tuple(DEFAULTS.by_word))))
def test_any_text_can_be_a_site(text: str):
    source = Source(file="site.yaml", text=text)
    sound(read_site(source)[1], source)


ALL_OF_A_PALETTE = (*PALETTE.by_word, *PAINT.by_word, *MIX.by_word, *RANGE.by_word, *LET_DOWN.by_word)


@given(
    st.one_of(
        badly.scribbles,
        badly.typed(ALL_OF_A_PALETTE).map(
            lambda paint: f"paints: [{paint}]\nmixes: [{paint}]\nranges: {{A: {paint}}}"
        ),
    )
)
def test_any_text_can_be_a_palette(text: str):
    source = Source(file="palette.yaml", text=text)
    file, told = read_palette_file(source)
    sound((*told, *palette_of([file])[1]), source)


@given(st.one_of(badly.scribbles, badly.typed((*PLAN.by_word, *UNIT.by_word, "mon-fri", "2026-06-03"))))
def test_any_text_can_be_a_plan(text: str):
    source = Source(file="plans/regatta.yaml", text=text)
    sound(read_plan(source, slug="regatta")[1], source)


@given(
    st.one_of(
        badly.scribbles, badly.typed((*STEP.by_word, "stop", "insert")).map(lambda step: f"steps: [{step}]")
    )
)
def test_any_text_can_be_a_shared_list(text: str):
    source = Source(file="shared/base.yaml", text=text)
    sound(read_shared(source, "base", Listing())[1], source)


@given(
    st.one_of(
        badly.scribbles,
        badly.typed(tuple(GUIDE.by_word)).map(lambda guide: f"---\n{guide}\n---\n"),
        badly.typed(tuple(STEP.by_word)).map(lambda step: f"---\ntitle: Ferry\nsteps: [{step}]\n---\n"),
        st.builds("---\n{}\n---\n{}".format, badly.scribbles, badly.markdown_texts),
    )
)
def test_any_text_can_be_a_guide(text: str):
    source = Source(file=PLACE, text=text)
    guide, told = read_guide(source, slug="ferry-watch", listing=FINISHED)
    sound(told, source)
    if guide is not None:
        for places in (guide.places, *(step.places for step in guide.steps)):
            assert all(inside(span, source) for span in places.values())


BODY = "---\ntitle: Ferry watch\nsteps: [{step: Coats, paint: none}, {step: Coats, paint: none}]\n---\n"
TAGS = re.compile(r"<(/?)([a-z0-9]+)([^<>]*)>")
ATTRIBUTES = re.compile(
    r'(?: href="(?:https?:|mailto:|[^":]*")[^"]*"?| data-to="[^"]*"| data-photo="[0-9]+"| data-alone| start="[0-9]+"'
    r'| class="language-[^"]*"| data-align="(?:left|right|center)")*'
)
KNOWN = set(
    re.findall(
        "[a-z0-9]+",
        "p em strong s a img ul ol li blockquote pre code hr br table thead tbody tr th td h2 h3 h4 h5 h6",
    )
)


@given(badly.markdown_texts)
@example('<img src=x onerror="alert(1)"> [a](javascript:alert(1)) ![b](" onload="x)')
@example("![a](finished.jpg)\n![](missing.jpg)\n\n## Coats\n![c](finished.jpg 'd')")
def test_any_markdown_becomes_safe_html(text: str):
    source = Source(file=PLACE, text=BODY + text)
    guide, told = read_guide(source, slug="ferry-watch", listing=FINISHED)
    sound(told, source)
    assert guide is not None
    for passage in (guide.body.before, *guide.body.under.values(), guide.body.after):
        rest = TAGS.sub("", passage.html)
        assert "<" not in rest, passage.html
        for _, name, attributes in TAGS.findall(passage.html):
            assert name in KNOWN, passage.html
            assert ATTRIBUTES.fullmatch(attributes), passage.html
        assert [int(found[0]) for found in PHOTO_HOLDER.findall(passage.html)] == list(
            range(len(passage.photos))
        )
        assert len(passage.links) <= len(LINK_HOLDER.findall(passage.html))
        assert all(inside(photo.span, source) for photo in passage.photos)
    assert set(guide.body.under) <= {0}, "the first of two steps of one title has the text"


@given(badly.scribbles)
def test_front_matter_and_text_make_up_the_file(text: str):
    source = Source(file=PLACE, text=f"---\n{text}\n---\nText.\n")
    parts = split(source)
    assert not isinstance(parts, Diagnostic)
    assert source.text[parts.start : parts.end] in f"{text}\n"
    assert source.text[: parts.start].strip("- \t\n") == ""
    assert source.text[parts.end : parts.body].strip() == "---"


@given(st.integers(0, LONGEST))
def test_printed_durations_are_read_back(milliseconds: int):
    shown = milliseconds - milliseconds % 1000
    assert Duration().of(print_duration(shown)) == shown


MINUTES = st.integers(1, 10_000)


@given(
    MINUTES,
    st.sampled_from(("{} min", "ca. {} min.", "about {}", "{} Minuten", "etwa {} Minuten", "{}.0 minutes")),
)
def test_minutes_are_read_however_they_are_written(minutes: int, form: str):
    assert Duration().of(form.format(minutes)) == minutes * MINUTE


@given(
    st.integers(0, 99), st.integers(0, 59), st.sampled_from(("{}h{:02}", "{} h {:02}", "{} Std. {:02} Min."))
)
def test_hours_and_minutes_are_read_however_they_are_written(hours: int, minutes: int, form: str):
    assert Duration().of(form.format(hours, minutes)) == hours * HOUR + minutes * MINUTE


@given(MINUTES, MINUTES, st.sampled_from(("{}-{} min", "{} – {}", "{} to {} minutes", "{} bis {} Minuten")))
def test_a_range_ends_with_what_is_longest_and_has_its_middle_halfway(first: int, more: int, form: str):
    text = form.format(first, first + more)
    assert Duration(longest=True).of(text) == (first + more) * MINUTE
    assert Duration().of(text) == first * MINUTE + more * MINUTE // 2


@given(own.hexes)
def test_printed_colours_are_read_back(colour: str):
    assert Colour().of(colour) == Colour().of(colour.upper()) == Colour().of(colour[1:]) == colour


@given(st.dates(dt.date(1900, 1, 1), dt.date(2200, 12, 31)))
def test_printed_dates_are_read_back(day: dt.date):
    assert Date().of(day.isoformat()) == day


@given(st.integers(0, 999), st.integers(0, 59), st.integers(0, 59))
def test_printed_places_in_a_video_are_read_back(first: int, second: int, third: int):
    assert VideoTime().of(f"{first}:{second:02}") == (first * 60 + second) * 1000
    assert VideoTime().of(f"{first}:{second:02}:{third:02}") == ((first * 60 + second) * 60 + third) * 1000


@given(st.integers(0, 1439), st.integers(1, 1440))
def test_hours_last_as_long_as_they_were_printed(start: int, length: int):
    end = (start + length) % 1440
    if end == start:
        return
    read = HoursOf().of(f"{start // 60}:{start % 60:02}-{end // 60}:{end % 60:02}")
    assert read == (start, end if end > start else end + 1440)


@given(st.integers(1, 10_000), st.integers(1, 1000), st.integers(1, 100))
def test_printed_numbers_are_read_back(ratio: int, parts: int, percent: int):
    scale = ScaleOf().of(f"1:{ratio}")
    assert scale.ratio == ratio
    assert ScaleOf().of(scale.text) == scale
    assert Ratio().of(f"{parts}:{ratio}") == (parts, ratio)
    assert Amount().of(str(parts)) == (parts, False)
    assert Share().of(f"{percent}%") == percent / 100


@given(st.dictionaries(st.sampled_from(["mind", "look_for", "spots", "brush"]), own.labels), own.labels)
def test_a_step_has_what_was_typed_and_its_places(texts: dict[str, str], title: str):
    quoted = {key: "'" + text.replace("'", "''") + "'" for key, text in {"step": title, **texts}.items()}
    lines = "".join(f"    {key}: {text}\n" for key, text in quoted.items())
    source = Source(file=PLACE, text=f"---\ntitle: Ferry\nsteps:\n  - paint: none\n{lines}---\n")
    guide, told = read_guide(source, slug="ferry-watch")
    if "\x85" in lines or "\ufeff" in lines or told:
        assert all(one.code in {"bad-yaml", "empty-value"} for one in told)
        return
    assert guide is not None
    step = guide.steps[0]
    assert step.title == title
    for key, text in texts.items():
        assert getattr(step, key) == text
        assert piece(step.places[key], source) == quoted[key]


@given(
    st.lists(
        st.sampled_from([*"0159,.-–/ ", "min", "h", "Std", "to", "bis", "half", "and", "between"]), max_size=9
    )
)
def test_whatever_is_typed_as_a_time_is_one_or_none(pieces: list[str]):
    text = "".join(pieces)
    found = read_time(text)
    assert found is None or 0 <= found.least <= found.most
    turned = turned_round(text)
    assert turned is None or read_time(turned) is not None
