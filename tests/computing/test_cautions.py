"""What a guide warns of without being asked: by its labels, techniques, paints and words, and never by chance."""

from __future__ import annotations

import pytest
from pots import HERE, house_mix, named, palette_of, pot
from workbench import item, scheme, titled

from guidegen.base.units import DAY, HOUR
from guidegen.computing.cautions import Caution, cautions
from guidegen.computing.practice import ALWAYS, PRACTICE
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
    house_mix("Mudflat wash", {"Kelp Wash": 3, "Oilskin Ochre": 1}),
)
OCHRE = titled("Coats", "base coat", "Oilskin Ochre")

# What any painting with a brush brings.
USUAL = {"Brushes", "Always"}


def found(*steps: Step, **guide: object) -> tuple[Caution, ...]:
    return cautions(scheme(PALETTE, *steps, **guide), PALETTE)


def subjects(*steps: Step, **guide: object) -> set[str]:
    return {caution.subject for caution in found(*steps, **guide)}


def about(subject: str, *steps: Step, **guide: object) -> Caution:
    (caution,) = [one for one in found(*steps, **guide) if one.subject == subject]
    return caution


def test_every_list_ends_by_sending_the_reader_on():
    for steps in ((), (OCHRE,), (titled("Prime", "spray", "Slate Undercoat"),)):
        last = found(*steps)[-1]
        assert last.text == ALWAYS.text
        for authority in ("label", "safety data sheet", "local rules", "trained"):
            assert authority in last.text
    assert [one.subject for one in found(OCHRE)] == ["Brushes", "Always"]


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
    caution = about("Spray cans", OCHRE, step)
    assert caution.steps == (2,)
    assert caution.code is None
    for word in ("outdoors", "flame", "50 °C"):
        assert word in caution.text


@pytest.mark.parametrize(
    ("subject", "step"),
    [
        ("Airbrush", titled("Hull", "airbrush", "Oilskin Ochre")),
        ("Airbrush", titled("Airbrush the hull", "base coat", "Oilskin Ochre")),
        ("Airbrush", titled("Hull", "", "Thin Air")),
        ("Airbrush", titled("Hull", "base coat", "Oilskin Ochre", tools=(item("air-brush, 0.3 mm"),))),
        ("Two-pack paint", titled("Seal", "brush varnish", "Hull Clear")),
        ("Two-pack paint", titled("Seal", "brush varnish", materials=(item("two-pack varnish"),))),
        ("Two-pack paint", titled("Seal", "airbrush", mind="hardens with isocyanate")),
        ("Solvents", titled("Grime", "wash", "Bilge Wash")),
        ("Solvents", titled("Glow", "glaze", "Eel Pie")),
        ("Solvents", titled("Grime", "oil wash", "Oilskin Ochre")),
        ("Solvents", titled("Stain", "stain", "Mooring Stain")),
        ("Solvents", titled("Lines", "layer", "Tally Ink")),
        ("Solvents", titled("Grime", "wash", "Oilskin Ochre", thin=Thin(text="1:3 white spirit"))),
        ("Solvents", titled("Grime", "wash", if_wrong="Wipe it off with turps.")),
        ("Solvents", titled("Clean", "", materials=(item("IPA"),))),
        ("Oily rags", titled("Glow", "glaze", "Eel Pie")),
        ("Oily rags", titled("Grime", "oil wash", "Oilskin Ochre")),
        ("Oily rags", titled("Decks", "stain", materials=(item("linseed oil"),))),
        ("Resin dust", titled("Sand the resin seams", "")),
        ("Resin dust", titled("Clean up", "", tools=(item("file", purpose="mould lines of the resin"),))),
        ("Uncured resin and epoxy putty", titled("Gaps", "", materials=(item("epoxy putty"),))),
        ("Uncured resin and epoxy putty", titled("Pool", "", materials=(item("clear resin"),))),
        ("Lead", titled("Clean the lead casting", "")),
        ("Lead", titled("Clean up", "", mind="Old figures are cast in lead.")),
        ("Lead", titled("Ballast", "", materials=(item("lead shot"),))),
        ("Super glue", titled("Build", "", materials=(item("thin superglue"),))),
        ("Super glue", titled("Build", "", materials=(item("cyanoacrylate"),))),
        ("Blades", titled("Build", "", tools=(item("hobby knife"),))),
        ("Blades", titled("Cut away the sprue", "")),
        ("Blades", titled("Scrape the mould lines", "")),
        ("Warm air", titled("Dry", "wash", "Oilskin Ochre", dry=Dry(air=HOUR, warm=300_000))),
        ("Warm air", titled("Dry", "wash", "Oilskin Ochre", tools=(item("hair dryer"),))),
        ("Pigment powder", titled("Dust", "pigment", "Dredged Rust")),
        ("Pigment powder", titled("Dust", "dry brush", "Dredged Rust")),
    ],
    ids=lambda value: value if isinstance(value, str) else f"{value.title}, {value.technique}",
)
def test_what_calls_for_a_caution(subject: str, step: Step):
    assert about(subject, OCHRE, step).steps == (2,)


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
    ],
    ids=lambda step: step.title,
)
def test_what_only_sounds_like_one(step: Step):
    assert subjects(step) == USUAL


@pytest.mark.parametrize(
    ("subject", "guide"),
    [
        ("Lead", {"tags": ("ferry watch", "lead")}),
        ("Lead", {"summary": "Ten lead figures from a flea market."}),
        ("Resin dust", {"materials": (item("resin figures"),)}),
        ("Super glue", {"materials": (item("super glue"),)}),
        ("Blades", {"tools": (item("scalpel"),)}),
        ("Warm air", {"tools": (item("hairdryer"),)}),
        ("Spray cans", {"tools": (item("spray primer"),)}),
    ],
    ids=lambda value: value if isinstance(value, str) else next(iter(value)),
)
def test_what_concerns_the_whole_guide(subject: str, guide: dict[str, object]):
    listed = found(OCHRE, **guide)
    assert listed[0].subject == subject
    assert listed[0].steps == ()


def test_a_tool_of_the_guide_is_told_to_the_steps_that_are_sure_to_use_it():
    spray = titled("Prime", "spray", "Slate Undercoat")
    assert about("Spray cans", OCHRE, spray, tools=(item("spray can"),)).steps == (2,)
    assert about("Blades", OCHRE, titled("Cut away", ""), tools=(item("scalpel"),)).steps == ()


def test_warm_air_and_solvent_do_not_go_together():
    warm = Dry(air=DAY, warm=600_000)
    assert "Warm air and solvent" in subjects(titled("Grime", "oil wash", "Eel Pie", dry=warm))
    assert "Warm air and solvent" in subjects(titled("Prime", "spray", "Slate Undercoat", dry=warm))
    assert "Warm air and solvent" not in subjects(titled("Coats", "base coat", "Oilskin Ochre", dry=warm))
    by_tool = about(
        "Warm air and solvent", OCHRE, titled("Glow", "glaze", "Eel Pie"), tools=(item("heat gun"),)
    )
    assert by_tool.steps == (2,)


def test_drying_is_not_curing():
    oil = titled("Grime", "oil wash", "Eel Pie")
    assert about("Drying is not curing", OCHRE, oil).steps == (2,)
    tape = titled("Mask off the stripe", "", tools=(item("masking tape"),))
    assert about("Drying is not curing", OCHRE, tape).steps == (2,)
    rested = titled("Coats", "base coat", "Oilskin Ochre", dry=Dry(air=DAY))
    assert "Drying is not curing" not in subjects(rested, oil)
    assert "Drying is not curing" not in subjects(oil, oil)
    assert "Drying is not curing" not in subjects(tape, OCHRE)


def test_labels_are_told_once_with_all_their_pots_and_steps():
    listed = found(
        titled("Prime", "spray", "Slate Undercoat"),
        titled("Coats", "base coat", "Oilskin Ochre"),
        titled("Seal", "spray", "Calm Matt"),
    )
    labels = {caution.code: caution for caution in listed if caution.code}
    assert set(labels) == {"H222", "H229"}
    assert labels["H222"].text == "Extremely flammable aerosol."
    assert labels["H222"].steps == (1, 3)
    assert labels["H222"].paints == ("Slate Undercoat", "Calm Matt")
    assert "Annex 3" in labels["H222"].source
    assert labels["H229"].steps == (1,)


def test_the_label_of_a_paint_in_a_house_mix_counts():
    caution = about("Label", titled("Darken", "wash", "Mudflat wash"))
    assert caution.code == "EUH208"
    assert caution.text == "Contains 1,2-benzisothiazolin-3-one. May produce an allergic reaction."
    assert caution.paints == ("Kelp Wash",)


def test_an_unknown_code_is_left_to_the_checking():
    odd = Paint(name="Odd", colour="#112233", hazards=(named("H999"),), span=HERE)
    palette = palette_of(odd)
    assert {one.code for one in cautions(scheme(palette, titled("a", "layer", "Odd")), palette)} == {None}


def test_what_an_author_warns_of_is_told():
    fumes = item("water gel", cautions=("Pour it by an open window.",))
    caution = about("water gel", OCHRE, titled("Puddles", "water gel", materials=(fumes,)))
    assert (caution.text, caution.steps, caution.code) == ("Pour it by an open window.", (2,), None)


def test_cautions_come_before_the_first_step_they_concern():
    listed = found(
        titled("Coats", "base coat", "Oilskin Ochre"),
        titled("Prime", "spray", "Slate Undercoat"),
        titled("Grime", "oil wash", "Eel Pie"),
        tags=("lead",),
    )
    firsts = [caution.steps[0] if caution.steps else 0 for caution in listed[:-1]]
    assert firsts == sorted(firsts)
    at_the_spray = [caution.subject for caution in listed if caution.steps[:1] == (2,)]
    assert at_the_spray == ["Spray cans", "Label", "Label"]


def test_steps_of_another_variant_do_not_count():
    hood = titled("Prime the hood", "spray", "Slate Undercoat", only={"headgear": named("hood")})
    choose = {"headgear": ("straw hat", "hood")}
    assert subjects(OCHRE, hood, choose=choose) == USUAL


@pytest.mark.parametrize("key", PRACTICE)
def test_every_caution_is_whole_and_names_its_source(key: str):
    practice = PRACTICE[key]
    assert practice.text.endswith(".")
    assert practice.source
    assert len(practice.text) < 330


def test_a_guide_without_steps():
    assert [one.subject for one in found()] == ["Always"]
