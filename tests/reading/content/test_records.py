"""Records of guides, shared lists, plans and palettes: what is kept of a faulty one, and what is not told twice."""

from __future__ import annotations

import pytest

from guidegen.base.diagnostic import Diagnostic
from guidegen.base.listing import Listing
from guidegen.base.source import Source
from guidegen.base.stamp import Stamp
from guidegen.model.guide import Guide, PaintUse, Scale, Shared
from guidegen.model.site import Defaults
from guidegen.reading.content.guide import read_guide
from guidegen.reading.content.shared import MOST_STEPS, check_inserts, read_shared

ONE_PHOTO = Listing({"guides/a.jpg": Stamp(1, 1, 1, 1)})


def codes(told: tuple[Diagnostic, ...]) -> list[str]:
    return [one.code for one in told]


def guide_of(front: str, body: str = "", **more: object) -> tuple[Guide, list[str]]:
    source = Source(file="guides/ferry-watch.md", text=f"---\n{front}\n---\n{body}")
    guide, told = read_guide(source, slug="ferry-watch", listing=ONE_PHOTO, **more)  # type: ignore[arg-type]
    assert guide is not None
    return guide, codes(told)


def steps_of(entry: str) -> tuple[Guide, list[str]]:
    return guide_of(f"title: Ferry\nsteps: [{entry}]")


def list_of(text: str, name: str = "base") -> Shared:
    shared, told = read_shared(Source(file=f"shared/{name}.yaml", text=text), name, Listing())
    assert shared is not None
    assert told == ()
    return shared


class TestPaint:
    """What a step paints with."""

    @pytest.mark.parametrize(
        ("typed", "use", "parts"),
        [
            ("Oilskin Ochre", PaintUse.SIDE_BY_SIDE, [("Oilskin Ochre", 1.0, False)]),
            ("[A, B]", PaintUse.SIDE_BY_SIDE, [("A", 1.0, False), ("B", 1.0, False)]),
            ("{A: 2, B: a touch}", PaintUse.MIXED, [("A", 2.0, False), ("B", 0.1, True)]),
            ("none", PaintUse.NONE, []),
            ("As  before", PaintUse.AS_BEFORE, []),
        ],
    )
    def test_forms(self, typed: str, use: PaintUse, parts: list[tuple[str, float, bool]]):
        guide, told = steps_of(f"{{step: Coats, paint: {typed}}}")
        assert told == []
        choice = guide.steps[0].paint
        assert choice is not None
        assert choice.use is use
        assert [(part.name.text, part.amount, part.touch) for part in choice.parts] == parts

    def test_left_out_has_no_place(self):
        for entry in ("{step: Coats}", "{step: Coats, paint: }"):
            step = steps_of(entry)[0].steps[0]
            assert step.paint is None
            assert "paint" not in step.places

    @pytest.mark.parametrize("typed", ["[]", "{}", "[[A]]", "{a: b}"])
    def test_unreadable_has_one(self, typed: str):
        guide, told = steps_of(f"{{step: Coats, paint: {typed}}}")
        assert told == ["bad-value"]
        assert "paint" in guide.steps[0].places
        assert (guide.steps[0].paint is None) == (typed != "{a: b}")


def test_a_faulty_guide_keeps_what_can_be_read():
    guide, told = guide_of(
        "title: Ferry\nfigures: ten\ndate: soon\nbase: 25 mm\nsteps:\n"
        "  - {step: Coats, paint: A, each: 1:30, once: 2 min, coats: x}\n  - what\n  - {step: Hoods, paint: B}"
    )
    assert sorted(told) == ["bad-date", "bad-duration", "bad-value", "bad-value", "bad-value"]
    assert (guide.figures, guide.date, guide.base) == (1, None, 25.0)
    assert [step.title for step in guide.steps] == ["Coats", "Hoods"]
    assert (guide.steps[0].once, guide.steps[0].each, guide.steps[0].coats) == (120_000, 0, 1)
    assert {"figures", "date"} <= guide.places.keys()


def test_a_slip_in_a_key_is_told_once():
    assert guide_of("titel: Ferry\nstepz: []")[1] == ["unknown-key", "unknown-key"]
    assert steps_of("{setp: Coats, paint: none}")[1] == ["unknown-key"]
    assert steps_of("{sotp: Fit to field}")[1] == ["unknown-key"]


def test_defaults_of_the_site():
    defaults = Defaults(figures=7, scale=Scale(ratio=72, text="20 mm", given=True), base=30.0)
    guide, _ = guide_of("title: Ferry\nsteps: [{step: A, paint: none}]", defaults=defaults)
    assert (guide.figures, guide.scale.text, guide.base) == (7, "20 mm", 30.0)
    guide, _ = guide_of(
        "title: Ferry\nfigures: 2\nscale: 1:24\nbase: none\nsteps: [{step: A, paint: none}]",
        defaults=defaults,
    )
    assert (guide.figures, guide.scale.ratio, guide.base) == (2, 24.0, None)


def test_nobody_gave_a_scale():
    assert not guide_of("title: Ferry\nsteps: [{step: A, paint: none}]")[0].scale.given


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Only a text.\n", "missing-key"),
        ("", "missing-key"),
        ("---\n---\n", "missing-key"),
        ("---\n# nothing\n---\nText\n", "missing-key"),
        ("---\ntitle: Ferry\n", "bad-yaml"),
        ("---\ntitle: Ferry\n --- \n", "bad-yaml"),
        ("---\n- a\n---\n", "bad-value"),
        ("---\ntitle\n---\n", "bad-value"),
        ("----\ntitle: Ferry\n---\n", "missing-key"),
    ],
)
def test_no_guide_at_all(text: str, code: str):
    guide, told = read_guide(Source(file="guides/a.md", text=text), slug="a")
    assert guide is None
    assert codes(told) == [code]


def test_front_matter_ends_at_the_first_line_that_is_only_dashes():
    text = "\n---  \ntitle: Ferry\nsummary: |\n  a\n  ---\n  b --- c\nsteps: [{step: A, paint: none}]\n---\t\nText\n---\nMore\n"
    guide, told = read_guide(Source(file="guides/a.md", text=text), slug="a")
    assert told == ()
    assert guide is not None
    assert guide.summary == "a --- b --- c"
    assert guide.body.before.plain == "Text\nMore"


def test_a_bare_photo_takes_the_alt_of_its_step():
    guide, told = steps_of(
        "{step: A, paint: none, photo: [a.jpg, {file: a.jpg, alt: Own, caption: C}], alt: Step's}"
    )
    assert told == []
    assert [(photo.alt, photo.caption) for photo in guide.steps[0].photos] == [("Step's", ""), ("Own", "C")]
    assert steps_of("{step: A, paint: none, photo: a.jpg}")[1] == ["photo-without-alt"]
    assert steps_of("{step: A, paint: none, photo: {file: a.jpg}}")[1] == ["missing-key"]


def test_areas_are_each_named_once():
    areas = [
        [area.text for area in steps_of(f"{{step: A, paint: none, area: {typed}}}")[0].steps[0].areas]
        for typed in ("coat", "[coat, Hat, COAT]", "all", "[hat, all]")
    ]
    assert areas == [["coat"], ["coat", "Hat"], [], []]


class TestInserts:
    """Shared lists in guides."""

    def test_steps_know_where_they_come_from(self):
        lists = {
            "base": list_of("steps: [{step: Sand, paint: none}, {stop: Based}, {insert: more}]"),
            "more": list_of("steps: [{step: Reeds, paint: none}]", "more"),
            "unread": None,
        }
        guide, told = guide_of(
            "title: Ferry\nsteps: [{step: A, paint: none}, {insert: Base}, {insert: unread}, {insert: nosuch}]",
            "## reeds\nText\n",
            shared=lists,
        )
        assert told == ["unknown-insert"]
        assert [(step.title, step.shared, step.span.file) for step in guide.steps] == [
            ("A", None, "guides/ferry-watch.md"),
            ("Sand", "base", "shared/base.yaml"),
            ("Reeds", "more", "shared/more.yaml"),
        ]
        assert guide.inserts == ("base", "more", "unread")
        assert list(guide.body.under) == [2]

    def test_a_circle_is_gone_round_once(self):
        lists = {
            "a": list_of("steps: [{step: A, paint: none}, {insert: b}]", "a"),
            "b": list_of("steps: [{step: B, paint: none}, {insert: a}]", "b"),
        }
        guide, told = guide_of("title: Ferry\nsteps: [{insert: a}]", shared=lists)
        assert told == []
        assert [step.title for step in guide.steps] == ["A", "B"]
        assert [one.code for one in check_inserts(lists)] == ["insert-circle"]

    @pytest.mark.parametrize("leaf", ["[]", "[{step: A, paint: none}]"])
    def test_doubling_comes_to_an_end(self, leaf: str):
        lists: dict[str, Shared | None] = {
            f"l{i}": list_of(f"steps: [{{insert: l{i + 1}}}, {{insert: l{i + 1}}}]", f"l{i}")
            for i in range(40)
        }
        shared, _ = read_shared(Source(file="shared/l40.yaml", text=f"steps: {leaf}"), "l40", Listing())
        lists["l40"] = shared
        guide, told = guide_of("title: Ferry\nsteps: [{insert: l0}]", shared=lists)
        assert told == ["bad-value"]
        assert len(guide.steps) <= MOST_STEPS

    def test_a_long_chain_is_no_trouble(self):
        lists: dict[str, Shared | None] = {
            f"l{i}": list_of(f"steps: [{{step: S{i}, paint: none}}, {{insert: l{i + 1}}}]", f"l{i}")
            for i in range(400)
        }
        lists["l400"] = list_of("steps: [{step: Last, paint: none}]", "l400")
        guide, told = guide_of("title: Ferry\nsteps: [{insert: l0}]", shared=lists)
        assert told == []
        assert len(guide.steps) == 401
        assert list(check_inserts(lists)) == []


def test_control_characters_do_not_come_in_by_way_of_escapes():
    assert guide_of('title: "Fer\\x07ry"\nsteps: [{step: A, paint: "a\\x00"}]')[1] == [
        "bad-value",
        "bad-value",
    ]
