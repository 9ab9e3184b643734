"""`guide.json`: every field, worked out by hand for a guide small enough for that."""

from __future__ import annotations

import datetime as dt
import json
from dataclasses import replace

import pytest
from support import town
from support.languages import ENGLISH
from support.town import AS_BEFORE, NOTHING, TOUCH, mixed, name, step, stop, uses

from guidegen.base.units import MINUTE
from guidegen.computing.guide.computed_guide import PaletteTools, compute_guide
from guidegen.model.guide import Dry, Guide, Instead, PaintedBatch, Reference, Swatch, UsedPaint
from guidegen.model.names import Item, Photo
from guidegen.model.paint import Kind
from guidegen.model.site import Site
from guidegen.rendering.exports.guide_json import guide_data, guide_json, indented
from guidegen.rendering.exports.guide_written import written_data
from guidegen.rendering.page.site_context import SiteContext
from guidegen.rendering.theme.assets import Assets

T = ("figures", "hands_on_min", "waiting_min", "brush_down_min", "total_min", "no_wait_figures")


def data_of(guide: Guide) -> dict:
    palette_tools = PaletteTools.over(town.PALETTE)
    return guide_data(compute_guide(guide, palette_tools), town.PALETTE, ENGLISH)


def json_of(guide: Guide) -> bytes:
    archive = town.archive(guide)
    palette_tools = PaletteTools.over(archive.palette)
    assets = Assets(style="site.css", script="site.js", icon="icon.svg")
    context = SiteContext.of(archive, palette_tools, assets, town.PICTURES)
    return guide_json(compute_guide(guide, palette_tools), context)


def instead(text: str) -> Instead:
    return Instead(parts=town.parts((text, 1)), span=town.HERE)


def guide(*entries, **more) -> Guide:
    return Guide(slug="small", file="guides/small.md", title="Small", entries=entries, span=town.HERE, **more)


def test_the_worked_example() -> None:
    """(once, each, dry) = (5,2,30) (0,3,10) (2,1,0) minutes at ten figures, as reckoned by hand."""
    data = data_of(
        guide(
            step("A", uses("Oilskin Ochre"), once=5, each=2, dry=30),
            step("B", uses("Oilskin Ochre"), each=3, dry=10),
            stop("Enough"),
            step("C", uses("Silt Wash"), once=2, each=1),
            figures=10,
        )
    )
    assert [data["time"][key] for key in T] == [10, 67, 12, 79, 79, 16]
    first = data["stops"][0]
    assert list(first) == ["name", *T]
    assert [first[key] for key in ("name", "hands_on_min", "waiting_min", "brush_down_min", "total_min")] == [
        "Enough", 55, 12, 67, 77,
    ]  # fmt: skip
    assert data["stretches"] == [
        {"from": 1, "to": 2, "no_wait_figures": 16},
        {"from": 3, "to": 3, "no_wait_figures": 1},
    ]


def test_paints_are_palette_paints_in_the_order_of_first_use() -> None:
    data = data_of(
        guide(
            step("Wash", uses("Wet Wool wash"), technique="wash"),
            step("Coat", uses("Bilge Wash", "Brass Lamp")),
        )
    )
    assert [(paint["name"], paint["range"], paint["steps"]) for paint in data["paints"]] == [
        ("Bilge Wash", "Ninelock", [1, 2]),
        ("Kelp Wash", "Ninelock", [1]),
        ("Clear Medium", "Ninelock", [1]),
        ("Brass Lamp", "Reedbank Acrylics", [2]),
    ]
    medium = data["paints"][2]
    assert (medium["kind"], medium["colour"], medium["closest"]) == ("medium", None, [])
    assert data["paints"][0]["owned"] == 1
    lamp = data["paints"][3]
    assert lamp["closest"][0]["name"] == "Oilskin Ochre"
    assert lamp["closest"][0]["de00"] == round(lamp["closest"][0]["de00"], 4)


def test_mixes_are_named_or_not() -> None:
    data = data_of(
        guide(
            step("Wash", uses("Wet Wool wash"), ("coat",), technique="wash"),
            step(
                "Mixed", mixed(("Oilskin Ochre", 2), ("Jetty Plank", TOUCH), ("Oilskin Ochre", 1)), ("coat",)
            ),
            step("Metal", mixed(("Bollard Iron", 1), ("Oilskin Ochre", 1)), ("iron",)),
        )
    )
    wash, inline, metal = data["mixes"]
    assert (wash["name"], wash["parts"]) == (
        "Wet Wool wash",
        {"Bilge Wash": 5, "Kelp Wash": 2, "Clear Medium": 1},
    )
    assert wash["estimate"] is True
    assert (inline["name"], inline["parts"]) == (None, {"Oilskin Ochre": 3, "Jetty Plank": 0.1})
    assert metal["colour"] is None


def test_steps_and_supplies() -> None:
    data = data_of(
        guide(
            step(
                "Coat",
                uses("Oilskin Ochre"),
                ("coat",),
                technique="base coat",
                once=1,
                each=1.5,
                dry=Dry(air=600_000),
                coats=2,
            ),
            step("Tidy", AS_BEFORE, ("coat",)),
            step(
                "Puddles", NOTHING, materials=(Item(name="gloss gel", purpose="the puddles", span=town.HERE),)
            ),
            tools=(Item(name="size 2 brush", span=town.HERE),),
            leave=(name("soles"),),
        )
    )
    assert data["steps"][0] == {
        "n": 1, "step": "Coat", "technique": "base coat", "areas": ["coat"], "paints": ["Oilskin Ochre"], "coats": 2,
        "once_min": 1, "each_min": 1.5, "dry_min": 10,
    }  # fmt: skip
    assert data["steps"][1]["paints"] == ["Oilskin Ochre"]
    assert data["steps"][2]["areas"] == ["coat", "soles"]
    assert data["steps"][2]["paints"] == []
    assert data["steps"][2]["technique"] is None
    assert data["materials"] == [{"name": "gloss gel", "for": "the puddles"}]
    assert data["tools"] == [{"name": "size 2 brush", "for": None}]


def test_cautions_and_areas() -> None:
    data = data_of(
        guide(
            step("Prime", uses("Slate Undercoat"), technique="spray"),
            step("Coat", uses("Oilskin Ochre"), ("coat",)),
            step("Edges", uses("Buoy in Sun"), ("coat",), technique="edge highlight"),
        )
    )
    codes = [caution["code"] for caution in data["cautions"]]
    assert {"H222", "H229", None} <= set(codes)
    assert all(caution["text"] for caution in data["cautions"])
    assert data["areas"]["coat"] == [
        {"n": 1, "edges": "#6b737a", "flats": "#6b737a", "recesses": "#6b737a"},
        {"n": 2, "edges": "#b8862f", "flats": "#b8862f", "recesses": "#b8862f"},
        {"n": 3, "edges": "#e3bd55", "flats": "#b8862f", "recesses": "#b8862f"},
    ]


def test_times_are_measured_where_they_are_what_batches_took() -> None:
    """40 minutes for ten figures with 5 once are 3:30 for each."""
    minutes = {"Coats": 40 * MINUTE}
    made = (PaintedBatch(date=dt.date(2026, 3, 14), figures=10, minutes=minutes),)
    for each, said in ((3.5, "measured"), (4, "written")):
        coats = step("Coats", uses("Oilskin Ochre"), once=5, each=each)
        assert data_of(guide(coats, made=made))["times"] == said
    assert data_of(guide(coats))["times"] == "written"


def test_the_fields_and_their_order() -> None:
    data = data_of(town.ferry_watch())
    assert list(data) == [
        "title", "slug", "times", "time", "stops", "stretches", "paints", "mixes", "steps", "materials", "tools", "cautions",
        "areas",
    ]  # fmt: skip
    assert list(data["paints"][0]) == [
        "name",
        "range",
        "kind",
        "colour",
        "steps",
        "ml",
        "drops",
        "owned",
        "buy",
        "closest",
    ]


@pytest.mark.parametrize("written", [town.ferry_watch(), town.short_note()])
def test_the_file_is_json_and_always_the_same(written: Guide) -> None:
    files = {json_of(written) for _ in range(2)}
    assert len(files) == 1
    assert json.loads(files.pop())["slug"] == written.slug


def test_everything_that_the_page_shows_is_there() -> None:
    used = (UsedPaint(paint="Oilskin Ochre", edition="old lids", colour="#b8862f"),)
    made = PaintedBatch(
        date=dt.date(2026, 3, 14),
        figures=10,
        minutes={"Coats": 52 * MINUTE},
        choose={"headgear": name("hood")},
        by="Marl",
        used=used,
        note="darker",
    )
    written = replace(
        town.ferry_watch(),
        authors=("Odda", "Marl"),
        author="Odda, Marl",
        credit="the eel seller",
        licence="ask first",
        places={"licence": town.HERE},
        published=dt.date(2026, 5, 1),
        tags=("watch",),
        made=(made,),
    )
    data = json.loads(json_of(written))
    said = {
        key: data[key] for key in ("authors", "credit", "licence", "published", "updated", "tags", "kind")
    }
    assert said == {
        "authors": ["Odda", "Marl"],
        "credit": "the eel seller",
        "licence": "ask first",
        "published": "2026-05-01",
        "updated": None,
        "tags": ["watch"],
        "kind": "painting",
    }
    assert data["made"] == [
        {
            "date": "2026-03-14",
            "figures": 10,
            "minutes": {"Coats": 52},
            "choose": {"headgear": "hood"},
            "mixed": {},
            "by": "Marl",
            "used": [{"paint": "Oilskin Ochre", "edition": "old lids", "colour": "#b8862f"}],
            "note": "darker",
        }
    ]
    assert data["photos"][0]["step"] is None
    assert {photo["file"] for photo in data["photos"]} == {
        f"../../{picture.path(picture.sizes[-1][0], 'jpg')}" for picture in town.PICTURES.values()
    }
    assert [one["n"] for one in data["words"]] == [one["n"] for one in data["steps"]]
    coats = data["words"][1]
    page = written.steps[1]
    assert (coats["mind"], coats["brush"]) == (page.mind or None, page.brush or None)
    assert json.loads(json_of(town.short_note()))["authors"] == [town.archive().site.author]


def test_references_and_all_that_a_step_says_are_there() -> None:
    scheme = Reference(
        photo=Photo(file="no.jpg", path=None, alt="A log", span=town.HERE),
        source="the night ferry's log",
        swatches=(Swatch(name="Wet wool", colour="#404850"),),
    )
    coat = replace(
        step("Coat", uses("Oilskin Ochre"), ("coat",)),
        stray=(name("base"),),
        dry=Dry(air=10 * MINUTE, warm=2 * MINUTE),
        holds_area=True,
    )
    data = json.loads(json_of(guide(coat, reference=(scheme,))))
    assert data["reference"] == [
        {
            "file": None,
            "alt": "A log",
            "source": "the night ferry's log",
            "swatches": [{"name": "Wet wool", "colour": "#404850"}],
        }
    ]
    said = data["words"][0]
    assert (said["stray"], said["dry_warm_min"], said["holds_area"], said["shared"]) == (
        ["base"],
        2,
        True,
        None,
    )


@pytest.mark.parametrize(
    "value",
    [
        {},
        [],
        (),
        {"a": [], "b": {}, "c": [1, 2.5, None, True], 'ß “\u2028\\"': {"d": [{"e": "\n"}]}},
        [[[0.1]], -0.0, 1e300],
    ],
)
def test_it_is_indented_as_the_standard_library_does(value: object) -> None:
    assert indented(value) == json.dumps(value, ensure_ascii=False, indent=1)


def test_what_the_shelf_has_for_a_paint_that_is_not_on_it() -> None:
    """An author's substitute that is owned comes first, then a pot that is near, then a mixture, then nothing."""
    data = data_of(
        guide(
            step("Lamp", uses("Brass Lamp"), ("coat",)),
            step("Slate", uses("Ferryman's Slate"), ("hood",), instead=(instead("Jetty Plank"),)),
            step("Rope", uses("Ropewalk"), ("rope",), instead=(instead("Buoy in Sun"),)),
            step("Tin", uses("Tin Bailer"), ("pail",)),
            step("Glaze", uses("Stern Light Glaze"), ("lamp",), technique="glaze"),
            step("Ochre", uses("Oilskin Ochre"), ("boots",)),
        )
    )
    found = {paint["name"]: paint.get("stand_in", "no key") for paint in data["paints"]}
    assert list(found["Brass Lamp"]) == ["kind", "parts", "colour", "de00", "estimate"]
    assert (found["Ferryman's Slate"]["kind"], found["Ferryman's Slate"]["parts"]) == (
        "instead",
        {"Jetty Plank": 1},
    )
    assert found["Ferryman's Slate"]["colour"] == "#7b6650"
    assert found["Ferryman's Slate"]["estimate"] is False
    assert (found["Ropewalk"]["kind"], found["Ropewalk"]["estimate"]) == ("mix", True)
    assert found["Ropewalk"]["de00"] <= 5.0
    assert all(isinstance(count, int) for count in found["Ropewalk"]["parts"].values())
    assert found["Tin Bailer"] is None
    assert found["Oilskin Ochre"] == "no key"


def test_editions_and_paints_that_are_made_no_more_are_told() -> None:
    lamp = replace(town.paint("Brass Lamp", "#c9a24a", edition="new lid"), discontinued=True)
    others = tuple(one for one in town.PALETTE.paints if one.name != "Brass Lamp")
    palette = replace(town.PALETTE, paints=(*others, lamp))
    several = guide(step("Lamp", uses("Brass Lamp"), ("coat",)), step("Rope", uses("Ropewalk"), ("rope",)))
    computed = compute_guide(several, PaletteTools.over(palette))
    assert written_data(computed, {}, Site())["pots"] == [
        {"name": "Brass Lamp", "range": "Reedbank Acrylics", "edition": "new lid", "discontinued": True},
        {"name": "Ropewalk", "range": "Reedbank Acrylics", "edition": None, "discontinued": False},
    ]


def test_a_near_pot_of_the_shelf() -> None:
    hoarded = town.paint("Hoarded Brass", "#c99a46", owned=1)
    palette = replace(town.PALETTE, paints=(*town.PALETTE.paints, hoarded))
    written = guide(step("Lamp", uses("Brass Lamp"), ("coat",)))
    data = guide_data(compute_guide(written, PaletteTools.over(palette)), palette, ENGLISH)
    assert data["paints"][0]["stand_in"] == {
        "kind": "pot",
        "parts": {"Hoarded Brass": 1},
        "colour": "#c99a46",
        "de00": data["paints"][0]["closest"][0]["de00"],
        "estimate": False,
    }


def test_a_pot_named_twice_in_a_substitute_keeps_all_its_parts() -> None:
    twice = Instead(parts=town.parts(("Ropewalk", 2), ("Jetty Plank", 1), ("Ropewalk", 1)), span=town.HERE)
    written = guide(step("Lamp", uses("Brass Lamp"), ("coat",), instead=(twice,)))
    (said,) = json.loads(json_of(written))["words"][0]["instead"]
    assert said["parts"] == {"Ropewalk": 3, "Jetty Plank": 1}


def test_films_stand_in_by_the_guides_own_undercoat() -> None:
    primer = town.paint("Peat", "#68472e", kind=Kind.PRIMER)
    wine = town.paint("Wine", "#8c5375", kind=Kind.WASH, strength=2.0)
    beet = town.paint("Beet", "#9f2ea6", kind=Kind.WASH, strength=0.6, owned=1)
    plum = town.paint("Plum", "#53174b", kind=Kind.WASH, strength=0.3, owned=1)
    palette_tools = PaletteTools.over(replace(town.PALETTE, paints=(primer, wine, beet, plum), mixes=()))
    wash = step("Folds", uses("Wine"), ("coat",), technique="wash")
    under = step("Prime", uses("Peat"), (), technique="brush undercoat")
    found = {}
    for entries in ((wash,), (under, wash)):
        data = guide_data(compute_guide(guide(*entries), palette_tools), palette_tools.palette, ENGLISH)
        (paint,) = [one for one in data["paints"] if one["name"] == "Wine"]
        found[len(entries)] = paint["stand_in"] and list(paint["stand_in"]["parts"])
    assert found == {1: ["Plum"], 2: ["Beet"]}
