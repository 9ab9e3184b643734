"""Every guide's guide.json in the built demo, down to the last key, and the other files beside it."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

HEX = re.compile(r"#[0-9a-f]{6}")


class Either:
    """One of several forms."""

    def __init__(self, *forms: Any) -> None:
        self.forms = forms


class Table:
    """Names to values of one form."""

    def __init__(self, form: Any) -> None:
        self.form = form


def number(value: Any) -> None:
    assert type(value) in {int, float}, value
    assert value == round(value, 4), value


def amount(value: Any) -> None:
    """Parts and millilitres: rounded, though finer than minutes."""
    assert type(value) in {int, float}, value
    assert value == round(value, 6), value
    assert value >= 0


def count(value: Any) -> None:
    assert type(value) is int, value
    assert value >= 0


def text(value: Any) -> None:
    assert isinstance(value, str), value
    assert value


def colour(value: Any) -> None:
    assert isinstance(value, str), value
    assert HEX.fullmatch(value), value


def yes_or_no(value: Any) -> None:
    assert isinstance(value, bool), value


TIMES = {
    "figures": count,
    "hands_on_min": number,
    "waiting_min": number,
    "brush_down_min": number,
    "total_min": number,
    "no_wait_figures": Either(count, None),
}
# An area that no covering paint has reached yet has no colour of its own.
HUE = Either(colour, None)
SUPPLIES = [{"name": text, "for": Either(text, None)}]
PAINT = {
    "name": text,
    "range": Either(text, None),
    "kind": text,
    "colour": Either(colour, None),
    "steps": [count],
    "ml": Either(amount, None),
    "drops": Either(amount, None),
    "owned": count,
    "buy": count,
    "closest": [{"name": text, "range": Either(text, None), "de00": number}],
}
STAND_IN = {
    "kind": text,
    "parts": Table(amount),
    "colour": Either(colour, None),
    "de00": Either(number, None),
    "estimate": yes_or_no,
}
SAID = Either(text, None)
# What a guide says besides what is computed.
WRITTEN = {
    "summary": SAID,
    "authors": [text],
    "credit": SAID,
    "licence": SAID,
    "contact": SAID,
    "kind": text,
    "language": text,
    "date": SAID,
    "published": SAID,
    "updated": SAID,
    "tags": [text],
    "see": [text],
    "was": [text],
    "video": SAID,
    "scale": SAID,
    "base_mm": Either(number, None),
    "surface_cm2": Either(number, None),
    "choose": Table([text]),
    "before": SAID,
    "after": SAID,
    "photos": [
        {"file": text, "alt": SAID, "caption": SAID, "by": SAID, "licence": SAID, "step": Either(count, None)}
    ],
    "pots": [{"name": text, "range": SAID, "edition": SAID, "discontinued": yes_or_no}],
    "reference": [
        {"file": SAID, "alt": SAID, "source": SAID, "swatches": [{"name": text, "colour": colour}]}
    ],
    "made": [
        {
            "date": text,
            "figures": count,
            "minutes": Table(number),
            "choose": Table(text),
            "mixed": Table(Table(count)),
            "by": SAID,
            "used": [{"paint": text, "edition": SAID, "colour": Either(colour, None)}],
            "note": SAID,
        }
    ],
    "words": [
        {
            "n": count,
            "brush": SAID,
            "thin": SAID,
            "optional": yes_or_no,
            "rest": yes_or_no,
            "mind": SAID,
            "look_for": SAID,
            "if_wrong": SAID,
            "spots": SAID,
            "stray": [text],
            "dry_warm_min": Either(number, None),
            "holds_area": yes_or_no,
            "shared": SAID,
            "at_s": Either(count, None),
            "instead": [{"parts": Table(amount), "note": SAID}],
            "text": SAID,
        }
    ],
}
FORM = {
    "title": text,
    "slug": text,
    "times": text,
    "time": TIMES,
    "stops": [{"name": text} | TIMES],
    "stretches": [
        {
            "from": Either(text, count, None),
            "to": Either(text, count, None),
            "no_wait_figures": Either(count, None),
        }
    ],
    "paints": [Either(PAINT, PAINT | {"stand_in": Either(STAND_IN, None)})],
    "mixes": [
        {
            "name": Either(text, None),
            "parts": Table(amount),
            "colour": Either(colour, None),
            "estimate": yes_or_no,
        }
    ],
    "steps": [
        {
            "n": count,
            "step": text,
            "technique": Either(text, None),
            "areas": [text],
            "paints": [text],
            "coats": count,
            "once_min": number,
            "each_min": number,
            "dry_min": number,
        }
    ],
    "materials": SUPPLIES,
    "tools": SUPPLIES,
    "cautions": [{"code": Either(text, None), "text": text}],
    "areas": Table([{"n": count, "edges": HUE, "flats": HUE, "recesses": HUE}]),
} | WRITTEN


def check(value: Any, form: Any, where: str = "guide") -> None:
    """Whether a value has a form: keys in order and no others, every item of a list, one of several."""
    if form is None:
        assert value is None, where
    elif isinstance(form, dict):
        assert list(value) == list(form), where
        for key, part in form.items():
            check(value[key], part, f"{where}.{key}")
    elif isinstance(form, list):
        assert isinstance(value, list), where
        for at, item in enumerate(value):
            check(item, form[0], f"{where}[{at}]")
    elif isinstance(form, Table):
        for key, item in value.items():
            text(key)
            check(item, form.form, f"{where}.{key}")
    elif isinstance(form, Either):
        if value is None:
            assert None in form.forms, where
        else:
            fitting = []
            for one in form.forms:
                try:
                    check(value, one, where)
                    fitting.append(one)
                except AssertionError:
                    continue
            assert fitting, f"{where}: {value!r}"
    else:
        try:
            form(value)
        except AssertionError as error:
            raise AssertionError(f"{where}: {value!r}") from error


def guides(demo) -> dict[str, dict[str, Any]]:
    found = {}
    for path in sorted(demo.files):
        if re.fullmatch(r"guides/[^/]+/guide\.json", path):
            found[path.split("/")[1]] = json.loads((demo.folder / path).read_text(encoding="utf-8"))
    # What a guide had as its address once keeps its files.
    assert found.pop("jetty-watch") == found["ferry-watch"]
    assert len(found) > 5
    return found


def test_the_form_down_to_the_last_key(demo):
    for slug, data in guides(demo).items():
        check(data, FORM, slug)
        assert data["slug"] == slug


def test_numbers_hang_together(demo):
    for slug, data in guides(demo).items():
        assert [step["n"] for step in data["steps"]] == list(range(1, len(data["steps"]) + 1)), slug
        time = data["time"]
        assert time["brush_down_min"] == pytest.approx(time["hands_on_min"] + time["waiting_min"], abs=2e-4)
        assert time["total_min"] >= time["brush_down_min"], slug
        hands_on = sum(
            step["once_min"] + time["figures"] * step["coats"] * step["each_min"] for step in data["steps"]
        )
        assert time["hands_on_min"] == pytest.approx(hands_on, abs=0.05), slug
        assert all(stop["hands_on_min"] <= time["hands_on_min"] for stop in data["stops"]), slug
        for paint in data["paints"]:
            assert paint["steps"] == sorted(set(paint["steps"])), slug
            assert set(paint["steps"]) <= {step["n"] for step in data["steps"]}, slug
            assert [match["de00"] for match in paint["closest"]] == sorted(
                match["de00"] for match in paint["closest"]
            )
            assert all(match["de00"] <= 10 for match in paint["closest"])
            assert len(paint["closest"]) <= 5
        first = [paint["steps"][0] for paint in data["paints"]]
        assert first == sorted(first), slug


def test_the_page_shows_the_same_steps(demo):
    for slug, data in guides(demo).items():
        soup = demo.pages[f"guides/{slug}/index.html"]
        shown = " ".join(soup.get_text(" ").split())
        assert all(" ".join(step["step"].split()) in shown for step in data["steps"]), slug


@pytest.mark.parametrize(
    "change",
    [
        {"slug": None},
        {"extra": 1},
        {"time": {}},
        {"tools": [{"name": "", "for": None}]},
        {"areas": {"coat": [{"n": 1, "edges": "#ABCDEF", "flats": "#000000", "recesses": "#000000"}]}},
    ],
)
def test_the_check_itself_can_fail(demo, change: dict[str, Any]):
    data = guides(demo)["ferry-watch"]
    with pytest.raises(AssertionError):
        check(data | change, FORM)


def test_what_stands_in_is_told_of_the_paints_that_are_not_owned(demo) -> None:
    found = [paint for guide in guides(demo).values() for paint in guide["paints"]]
    assert {"stand_in" in paint for paint in found if paint["owned"]} == {False}
    missing = [paint for paint in found if not paint["owned"]]
    assert missing
    assert all("stand_in" in paint for paint in missing)
