"""What a guide warns of without being asked: by its labels, techniques, paints and words, and never by chance."""

from __future__ import annotations

import pytest
from support.guides import item, scheme, titled
from support.paints import HERE, house_mix, named, palette_of, pot

from guidegen.base.units import DAY, HOUR
from guidegen.computing.guide.cautions import Caution, cautions
from guidegen.computing.guide.hazards import Statement
from guidegen.model.guide import Dry, Step, Thin
from guidegen.model.paint import Paint

PALETTE = palette_of(
    pot("Oilskin Ochre", "#b8862f"),
    pot("Slate Undercoat", "#6b737a", "primer", comes_as="can", hazards=(named("H222"), named("H229"))),
    pot("Calm Matt", None, "varnish", comes_as="can", hazards=(named("H222"),)),
    pot("Bilge Wash", "#2a2d36", "wash", binder="enamel"),
    pot("Eel Pie", "#6d4a3c", "oil"),
    pot("Kelp Wash", "#3b4427", "wash", hazards=(named("EUH208: 1,2-benzisothiazolin-3-one"),)),
    pot("Dredged Rust", "#9a552d", "pigment"),
    pot("Thin Air", "#aab4b8", comes_as="airbrush"),
    pot("Tally Ink", "#123b66", "ink", hazards=(named("H226"), named("H318"), named("EUH208"))),
    pot("Mooring Stain", "#a67c46", "stain", note="Solvent-based, smells."),
    pot("Sluice Teal", "#2f6c70", note="Free of solvents; no isocyanates."),
    pot("Hull Clear", None, "varnish", note="A 2K clear coat."),
    house_mix("Slipway wash", {"Kelp Wash": 3, "Oilskin Ochre": 1}),
)
OCHRE = titled("Coats", "base coat", "Oilskin Ochre")

# What any painting with a brush brings.
USUAL = {"brushes", "always"}


def found(*steps: Step, **guide: object) -> tuple[Caution, ...]:
    return cautions(scheme(PALETTE, *steps, **guide), PALETTE)


def keys(*steps: Step, **guide: object) -> set[str]:
    return {caution.key for caution in found(*steps, **guide)}


def about(key: str, *steps: Step, **guide: object) -> Caution:
    (caution,) = [one for one in found(*steps, **guide) if one.key == key]
    return caution


def test_every_list_ends_by_sending_the_reader_on():
    for steps in ((), (OCHRE,), (titled("Prime", "spray", "Slate Undercoat"),)):
        assert found(*steps)[-1].key == "always"
    assert [one.key for one in found(OCHRE)] == ["brushes", "always"]


SPRAYED = [
    titled("Prime", "spray", "Slate Undercoat"),
    titled("Prime", "spray", "Oilskin Ochre"),
    titled("Prime", "spray undercoat"),
    titled("Seal", "spray varnish", "Calm Matt"),
    titled("Seal", "Spray", "Calm Matt"),
    titled("Seal", "varnish", "Calm Matt"),
    titled("Prime", "prime", "Slate Undercoat"),
    titled("Prime", "rattle can", "Oilskin Ochre"),
    titled("Prime", "zenithal spraying", "Oilskin Ochre"),
    titled("Spray the hull", "", "Oilskin Ochre"),
    titled("Undercoat", "base coat", "Oilskin Ochre", tools=(item("spray can of primer"),)),
    titled("Undercoat", "base coat", "Oilskin Ochre", materials=(item("aerosol adhesive"),)),
]


@pytest.mark.parametrize("step", SPRAYED, ids=lambda step: f"{step.title}, {step.technique}")
def test_a_spray_step_is_never_without_its_caution(step: Step):
    assert about("sprays", OCHRE, step).steps == (2,)


@pytest.mark.parametrize(
    ("key", "step"),
    [
        ("airbrush", titled("Hull", "airbrush", "Oilskin Ochre")),
        ("airbrush", titled("Airbrush the hull", "base coat", "Oilskin Ochre")),
        ("airbrush", titled("Hull", "", "Thin Air")),
        ("airbrush", titled("Hull", "base coat", "Oilskin Ochre", tools=(item("air-brush, 0.3 mm"),))),
        ("isocyanate", titled("Seal", "brush varnish", "Hull Clear")),
        ("isocyanate", titled("Seal", "brush varnish", materials=(item("two-pack varnish"),))),
        ("isocyanate", titled("Seal", "airbrush", mind="hardens with isocyanate")),
        ("solvents", titled("Grime", "wash", "Bilge Wash")),
        ("solvents", titled("Glow", "glaze", "Eel Pie")),
        ("solvents", titled("Grime", "oil wash", "Oilskin Ochre")),
        ("solvents", titled("Stain", "stain", "Mooring Stain")),
        ("solvents", titled("Lines", "layer", "Tally Ink")),
        ("solvents", titled("Grime", "wash", "Oilskin Ochre", thin=Thin(text="1:3 white spirit"))),
        ("solvents", titled("Grime", "wash", if_wrong="Wipe it off with turps.")),
        ("solvents", titled("Clean", "", materials=(item("IPA"),))),
        ("oily rags", titled("Glow", "glaze", "Eel Pie")),
        ("oily rags", titled("Grime", "oil wash", "Oilskin Ochre")),
        ("oily rags", titled("Decks", "stain", materials=(item("linseed oil"),))),
        ("resin dust", titled("Sand the resin seams", "")),
        ("resin dust", titled("Clean up", "", tools=(item("file", purpose="mould lines of the resin"),))),
        ("uncured", titled("Gaps", "", materials=(item("epoxy putty"),))),
        ("uncured", titled("Pool", "", materials=(item("clear resin"),))),
        ("lead", titled("Clean the lead casting", "")),
        ("lead", titled("Clean up", "", mind="Old figures are cast in lead.")),
        ("lead", titled("Ballast", "", materials=(item("lead shot"),))),
        ("super glue", titled("Build", "", materials=(item("thin superglue"),))),
        ("super glue", titled("Build", "", materials=(item("cyanoacrylate"),))),
        ("blades", titled("Build", "", tools=(item("hobby knife"),))),
        ("blades", titled("Cut away the sprue", "")),
        ("blades", titled("Scrape the mould lines", "")),
        ("warm air", titled("Dry", "wash", "Oilskin Ochre", dry=Dry(air=HOUR, warm=300_000))),
        ("warm air", titled("Dry", "wash", "Oilskin Ochre", tools=(item("hair dryer"),))),
        ("powder", titled("Dust", "pigment", "Dredged Rust")),
        ("powder", titled("Dust", "dry brush", "Dredged Rust")),
        ("isocyanate", titled("Versiegeln", "brush varnish", materials=(item("2K-Klarlack"),))),
        ("solvents", titled("Ruß", "wash", "Oilskin Ochre", thin=Thin(text="1:3 Terpentinersatz"))),
        ("solvents", titled("Säubern", "", mind="Das Lösungsmittel greift die Farbe an.")),
        ("oily rags", titled("Planken", "stain", materials=(item("Leinöl"),))),
        ("resin dust", titled("Nähte im Harz glatt schleifen", "")),
        ("uncured", titled("Lücken", "", materials=(item("Epoxidknete"),))),
        ("lead", titled("Säubern", "", mind="Alte Figuren sind aus Blei.")),
        ("lead", titled("Ballast", "", materials=(item("Bleischrot"),))),
        ("super glue", titled("Bauen", "", materials=(item("Sekundenkleber"),))),
        ("blades", titled("Bauen", "", tools=(item("Bastelmesser"),))),
        ("blades", titled("Gussgrate entfernen", "")),
        ("warm air", titled("Trocknen", "", tools=(item("Föhn"),))),
        ("sprays", titled("Grund", "base coat", "Oilskin Ochre", tools=(item("Sprühdose"),))),
        ("sprays", titled("Rumpf ansprühen", "", "Oilskin Ochre")),
        ("curing", titled("Abkleben", "", tools=(item("Maskierband"),))),
        ("magnifier", titled("Eyes", "freehand", tools=(item("magnifying lamp"),))),
        ("magnifier", titled("Augen", "freehand", tools=(item("Stirnlupe"),))),
        ("dropper", titled("Mix", "", mind="A clogged dropper wants a pin.")),
        ("dropper", titled("Mischen", "", materials=(item("leere Tropfflasche"),))),
        ("ammonia", titled("Clean", "", materials=(item("window cleaner", purpose="with ammonia"),))),
        ("ammonia", titled("Säubern", "", materials=(item("Salmiakgeist"),))),
        ("stripping", titled("Begin again", "", materials=(item("paint stripper"),))),
        ("stripping", titled("Neu anfangen", "", materials=(item("Abbeizer"),))),
        ("uv resin", titled("Pool", "", materials=(item("UV resin"),))),
        ("uv resin", titled("Teich", "", materials=(item("UV-Harz"),))),
        ("cadmium", titled("Sash", "", materials=(item("cadmium red"),))),
        ("cadmium", titled("Schärpe", "", materials=(item("Kobaltblau"),))),
        ("foam", titled("Ground", "spray", materials=(item("foam base"),))),
        ("foam", titled("Boden", "spray", materials=(item("Styropor"),))),
    ],
    ids=lambda value: value if isinstance(value, str) else f"{value.title}, {value.technique}",
)
def test_what_calls_for_a_caution(key: str, step: Step):
    assert about(key, OCHRE, step).steps == (2,)


@pytest.mark.parametrize(
    "step",
    [
        titled("The leading edge of the hood", "edge highlight", "Oilskin Ochre"),
        titled(
            "The leader and the lead rider", "layer", "Oilskin Ochre", mind="Lead the eye to the lantern."
        ),
        titled("Red lead below the waterline", "base coat", "Oilskin Ochre"),
        titled("Sea spray on the oilskins", "", "Oilskin Ochre"),
        titled("Spray of reeds", "", "Oilskin Ochre", tools=(item("spray bottle of water"),)),
        titled("The boatman's knife and blade", "layer", "Oilskin Ochre"),
        titled("Oilskins", "base coat", "Oilskin Ochre", mind="the oil lamp, the enamel badge"),
        titled("In single file", "layer", "Oilskin Ochre", look_for="the profile of the resin hull"),
        titled("Sand on the base", "sand on glue", "Oilskin Ochre", materials=(item("river sand"),)),
        titled("Coats", "base coat", "Sluice Teal"),
        titled("Coats", "base coat", "Oilskin Ochre", thin=Thin(text="1:1 airbrush thinner")),
        titled("Mix", "layer", "Oilskin Ochre", tools=(item("palette knife"), item("2 pots of water"))),
        titled("Mask and cloak", "layer", "Oilskin Ochre", materials=(item("lead-free pewter figure"),)),
        titled("Glue", "base coat", "Oilskin Ochre", mind="No super glue here, it frosts."),
        titled("Hair", "layer", "Oilskin Ochre", look_for="dry hair, a warm sheen"),
        titled("Bleistift und bleiche Bleibe", "layer", "Oilskin Ochre", mind="Nichts bleibt liegen."),
        titled("Der Messerschmied", "layer", "Oilskin Ochre", tools=(item("Palettenmesser"),)),
        titled("Kleben", "base coat", "Oilskin Ochre", mind="ohne Sekundenkleber, lösemittelfrei"),
        titled("Ölzeug", "base coat", "Oilskin Ochre", mind="die Öllampe, das Email-Schild"),
        titled("Foam on the river", "stipple", "Oilskin Ochre", tools=(item("foam sponge"),)),
        titled("A cobalt sky", "layer", "Oilskin Ochre", materials=(item("cadmium red hue"),)),
        titled("Stripes", "layer", "Oilskin Ochre", look_for="a bleached, striped canvas"),
    ],
    ids=lambda step: step.title,
)
def test_what_only_sounds_like_one(step: Step):
    assert keys(step) == USUAL


@pytest.mark.parametrize(
    ("key", "guide"),
    [
        ("lead", {"tags": ("ferry watch", "lead")}),
        ("lead", {"summary": "Ten lead figures from a flea market."}),
        ("resin dust", {"materials": (item("resin figures"),)}),
        ("super glue", {"materials": (item("super glue"),)}),
        ("blades", {"tools": (item("scalpel"),)}),
        ("warm air", {"tools": (item("hairdryer"),)}),
        ("sprays", {"tools": (item("spray primer"),)}),
    ],
    ids=lambda value: value if isinstance(value, str) else next(iter(value)),
)
def test_what_concerns_the_whole_guide(key: str, guide: dict[str, object]):
    listed = found(OCHRE, **guide)
    assert listed[0].key == key
    assert listed[0].steps == ()


def test_a_tool_of_the_guide_is_told_to_the_steps_that_are_sure_to_use_it():
    spray = titled("Prime", "spray", "Slate Undercoat")
    assert about("sprays", OCHRE, spray, tools=(item("spray can"),)).steps == (2,)
    assert about("blades", OCHRE, titled("Cut away", ""), tools=(item("scalpel"),)).steps == ()


def test_warm_air_and_solvent_do_not_go_together():
    warm = Dry(air=DAY, warm=600_000)
    assert "warm solvent" in keys(titled("Grime", "oil wash", "Eel Pie", dry=warm))
    assert "warm solvent" in keys(titled("Prime", "spray", "Slate Undercoat", dry=warm))
    assert "warm solvent" not in keys(titled("Coats", "base coat", "Oilskin Ochre", dry=warm))
    by_tool = about("warm solvent", OCHRE, titled("Glow", "glaze", "Eel Pie"), tools=(item("heat gun"),))
    assert by_tool.steps == (2,)


def test_drying_is_not_curing():
    oil = titled("Grime", "oil wash", "Eel Pie")
    assert about("curing", OCHRE, oil).steps == (2,)
    tape = titled("Mask off the stripe", "", tools=(item("masking tape"),))
    assert about("curing", OCHRE, tape).steps == (2,)
    rested = titled("Coats", "base coat", "Oilskin Ochre", dry=Dry(air=DAY))
    assert "curing" not in keys(rested, oil)
    assert "curing" not in keys(oil, oil)
    assert "curing" not in keys(tape, OCHRE)


def test_labels_are_told_once_with_all_their_pots_and_steps():
    listed = found(
        titled("Prime", "spray", "Slate Undercoat"),
        titled("Coats", "base coat", "Oilskin Ochre"),
        titled("Seal", "spray", "Calm Matt"),
    )
    labels = {caution.code: caution for caution in listed if caution.code}
    assert set(labels) == {"H222", "H229"}
    assert labels["H222"].steps == (1, 3)
    assert labels["H222"].paints == ("Slate Undercoat", "Calm Matt")
    assert labels["H229"].steps == (1,)


def test_the_label_of_a_paint_in_a_house_mix_counts():
    (caution,) = [one for one in found(titled("Darken", "wash", "Slipway wash")) if one.label]
    assert caution.label == Statement("EUH208", "1,2-benzisothiazolin-3-one")
    assert caution.paints == ("Kelp Wash",)


def test_an_unknown_code_is_left_to_the_checking():
    odd = Paint(name="Odd", colour="#112233", hazards=(named("H999"),), span=HERE)
    palette = palette_of(odd)
    assert {one.code for one in cautions(scheme(palette, titled("a", "layer", "Odd")), palette)} == {None}


def test_what_an_author_warns_of_is_told():
    fumes = item("water gel", cautions=("Pour it by an open window.",))
    listed = found(OCHRE, titled("Puddles", "water gel", materials=(fumes,)))
    told = Caution(text="Pour it by an open window.", steps=(2,), subject="water gel")
    assert told in listed


def test_cautions_come_before_the_first_step_they_concern():
    listed = found(
        titled("Coats", "base coat", "Oilskin Ochre"),
        titled("Prime", "spray", "Slate Undercoat"),
        titled("Grime", "oil wash", "Eel Pie"),
        tags=("lead",),
    )
    firsts = [caution.steps[0] if caution.steps else 0 for caution in listed[:-1]]
    assert firsts == sorted(firsts)
    at_the_spray = [caution.key or caution.code for caution in listed if caution.steps[:1] == (2,)]
    assert at_the_spray == ["sprays", "H222", "H229"]


def test_steps_of_another_variant_do_not_count():
    hood = titled("Prime the hood", "spray", "Slate Undercoat", only={"headgear": named("hood")})
    choose = {"headgear": ("straw hat", "hood")}
    assert keys(OCHRE, hood, choose=choose) == USUAL


def test_a_guide_without_steps():
    assert [one.key for one in found()] == ["always"]
