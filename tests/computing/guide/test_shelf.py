"""The shelf against the archive."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from support.guides import guide, titled
from support.paints import house_mix, palette_of, pot

from guidegen.base.source import Span
from guidegen.computing.guide.materials import paint_needs
from guidegen.computing.guide.scheme import scheme_of
from guidegen.computing.guide.shelf import on_shelf, shelf_of, sold_paints
from guidegen.model.guide import Guide, Instead, Step, Stop
from guidegen.model.names import Name, Part
from guidegen.model.paint import Paint

NOWHERE = Span.of_file("guides/watch.md")
OCHRE = pot("Oilskin Ochre", "#b8862f", owned=1)
LAMP = pot("Brass Lamp", "#c99b45", owned=1, discontinued=True)
PITCH = pot("Caulker's Pitch", "#202124")
TEAL = pot("Sluice Teal", "#2f6c70")
SILT = pot("Silt Wash", "#4a3b2a", "wash", owned=1, size=18.0)
MEDIUM = pot("Clear Medium", None, "medium")
PALETTE = palette_of(
    OCHRE, LAMP, PITCH, TEAL, SILT, MEDIUM, house_mix("Slipway wash", {"Silt Wash": 4, "Clear Medium": 1})
)


@dataclass(frozen=True)
class Close:
    paint: Paint
    de00: float


def closest(paint: Paint) -> Iterable[Close]:
    """As if everything were close to everything, the discontinued lamp closest of all."""
    return [Close(LAMP, 0.5), Close(OCHRE, 4.0), Close(PITCH, 9.0)]


def made(slug: str, *paints: str, figures: int = 1) -> tuple[Guide, tuple[object, ...]]:
    steps: list[Step] = [titled(name, "base coat", name) for name in paints]
    own = guide(*steps, slug=slug, figures=figures)
    return own, paint_needs(scheme_of(own, PALETTE), PALETTE, figures)


def slugs(guides: Iterable[object]) -> list[str]:
    return [getattr(one, "guide", one).slug for one in guides]


def test_ready_one_short_and_shorter():
    shelf = shelf_of(
        [
            made("watch", "Oilskin Ochre"),
            made("eel-seller", "Oilskin Ochre", "Sluice Teal"),
            made("toll-house", "Sluice Teal", "Caulker's Pitch", "Clear Medium"),
            made("patience", "Sluice Teal", "Caulker's Pitch"),
            made("riders", "Slipway wash"),
        ],
        closest,
    )
    assert slugs(shelf.ready) == ["watch"]
    assert slugs(shelf.one_short) == ["eel-seller", "riders"]
    assert [paint.name for paint in shelf.one_short[0].missing] == ["Sluice Teal"]
    assert [paint.name for paint in shelf.one_short[1].missing] == [
        "Clear Medium"
    ]  # mediums count, mixes are broken down
    assert slugs(shelf.short) == ["patience", "toll-house"]


def test_a_pot_that_does_not_last_is_missing():
    wash = titled("Darken", "wash", "Silt Wash", amount=1.0)
    own = guide(wash, slug="regatta", figures=24)
    shelf = shelf_of([(own, paint_needs(scheme_of(own, PALETTE), PALETTE, 24))], closest)
    assert slugs(shelf.one_short) == ["regatta"]


def test_discontinued_paints_with_the_closest_that_lives():
    shelf = shelf_of(
        [made("watch", "Brass Lamp"), made("widow", "Brass Lamp"), made("eel-seller", "Oilskin Ochre")],
        closest,
    )
    (gone,) = shelf.gone
    assert gone.paint is LAMP
    assert slugs(gone.guides) == ["watch", "widow"]
    assert gone.closest is not None
    assert gone.closest.paint is OCHRE
    assert slugs(shelf.ready) == ["watch", "widow", "eel-seller"]


def test_nothing_close_is_said_as_none():
    (gone,) = shelf_of([made("watch", "Brass Lamp")], lambda _: [Close(LAMP, 0.5)]).gone
    assert gone.closest is None


def test_wanted_paints_go_by_the_guides_they_complete():
    shelf = shelf_of(
        [
            made("a", "Caulker's Pitch", "Sluice Teal"),
            made("b", "Caulker's Pitch", "Clear Medium"),
            made("c", "Sluice Teal"),
        ],
        closest,
    )
    assert [(w.paint.name, slugs(w.guides), slugs(w.completes)) for w in shelf.wanted] == [
        ("Sluice Teal", ["a", "c"], ["c"]),
        ("Caulker's Pitch", ["a", "b"], []),
        ("Clear Medium", ["b"], []),
    ]


def test_the_living_palette():
    assert LAMP not in sold_paints(PALETTE).paints
    assert len(sold_paints(PALETTE).paints) == len(PALETTE.paints) - 1
    assert sold_paints(PALETTE).find("Brass Lamp") is None


def test_an_empty_archive():
    shelf = shelf_of([], closest)
    assert (shelf.ready, shelf.one_short, shelf.short, shelf.gone, shelf.wanted) == ((), (), (), (), ())


def lacking(*entries: Step | Stop) -> list[str]:
    own = guide(*entries, slug="watch")
    needs = paint_needs(scheme_of(own, PALETTE), PALETTE, 1)
    return [paint.name for paint in on_shelf(own, needs).missing]


def instead(*names: str) -> Instead:
    return Instead(
        parts=tuple(Part(name=Name(text=name, span=NOWHERE), amount=1.0) for name in names), span=NOWHERE
    )


def test_what_one_can_paint_without_is_not_missing():
    coat, teal = titled("Coat", "base coat", "Oilskin Ochre"), titled("Teal", "base coat", "Sluice Teal")
    assert lacking(coat, teal) == ["Sluice Teal"]
    assert lacking(coat, replace(teal, optional=True)) == []
    assert lacking(coat, Stop(name="Fit to field", span=NOWHERE), teal) == []
    assert lacking(Stop(name="Begun", span=NOWHERE), coat, teal) == ["Sluice Teal"]
    assert lacking(coat, teal, Stop(name="Fit to field", span=NOWHERE)) == ["Sluice Teal"]
    assert lacking(coat, replace(teal, instead=(instead("Caulker's Pitch"), instead("Oilskin Ochre")))) == []
    assert lacking(coat, replace(teal, instead=(instead("Caulker's Pitch"),))) == ["Sluice Teal"]
    assert lacking(coat, replace(teal, instead=(instead("Oilskin Ochre", "Caulker's Pitch"),))) == [
        "Sluice Teal"
    ]
    assert lacking(coat, replace(teal, optional=True), teal) == ["Sluice Teal"]
