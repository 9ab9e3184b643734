"""A small archive of the invented town, made of records, for the pages' tests. Its paints and people are made up."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace

from guidegen.base.source import Span
from guidegen.model.guide import (
    Body,
    Dry,
    Guide,
    Instead,
    PaintChoice,
    PaintedBatch,
    PaintUse,
    Passage,
    Scale,
    Step,
    Stop,
    Thin,
)
from guidegen.model.names import Item, Name, Part, Photo
from guidegen.model.paint import Kind, Mix, Paint, Palette, Range
from guidegen.model.site import Archive, Site
from guidegen.model.web_address import WebAddress

HERE = Span(file="guides/ferry-watch/guide.md", line=1, column=1, end_line=1, end_column=2)
MINUTE = 60_000
TOUCH = 0.1


def name(text: str) -> Name:
    return Name(text=text, span=HERE)


def paint(
    text: str, colour: str | None, kind: Kind = Kind.PAINT, maker: str = "Reedbank Acrylics", **more
) -> Paint:
    return Paint(
        name=text, range=maker, colour=colour, kind=kind, size=more.pop("size", 17.0), span=HERE, **more
    )


def parts(*amounts: tuple[str, float]) -> tuple[Part, ...]:
    return tuple(Part(name=name(text), amount=amount, touch=amount == TOUCH) for text, amount in amounts)


def uses(*names: str) -> PaintChoice:
    listed = tuple(Part(name=name(text), amount=1) for text in names)
    return PaintChoice(use=PaintUse.SIDE_BY_SIDE, parts=listed, span=HERE)


def mixed(*amounts: tuple[str, float]) -> PaintChoice:
    return PaintChoice(use=PaintUse.MIXED, parts=parts(*amounts), span=HERE)


NOTHING = PaintChoice(use=PaintUse.NONE, span=HERE)
AS_BEFORE = PaintChoice(use=PaintUse.AS_BEFORE, span=HERE)


def step(title: str, choice: PaintChoice | None = NOTHING, areas: tuple[str, ...] = (), **more) -> Step:
    for key in ("once", "each"):
        more[key] = round(more.get(key, 0) * MINUTE)
    dry = more.pop("dry", 0)
    return Step(
        title=title,
        paint=choice,
        areas=tuple(name(area) for area in areas),
        dry=dry if isinstance(dry, Dry) else Dry(air=round(dry * MINUTE)),
        span=HERE,
        **more,
    )


def stop(text: str) -> Stop:
    return Stop(name=text, span=HERE)


PALETTE = Palette(
    ranges=(
        Range(name="Reedbank Acrylics", size=17, price=2.8, thinner="water", span=HERE),
        Range(name="Ninelock", size=18, price=3.4, span=HERE),
        Range(name="Sternpost", size=150, price=9.5, span=HERE),
    ),
    paints=(
        paint("Saltpan White", "#eeeae0", owned=1, price=2.8),
        paint("Caulker's Pitch", "#202124", owned=1, price=2.8),
        paint("Ferryman's Slate", "#4c5660", price=2.8),
        paint("Oilskin Ochre", "#b8862f", owned=2, price=2.8, code="RB-05"),
        paint("Brass Lamp", "#c99b45", discontinued=True, price=2.8),
        paint("Buoy in Sun", "#e3bd55", price=2.8),
        paint("Jetty Plank", "#7b6650", owned=1, price=2.8),
        paint("Ropewalk", "#b09a72", price=2.8),
        paint("Deckhand", "#b27d5e", owned=1, price=2.8),
        paint("Cold Cheeks", "#dba98a", owned=1, price=2.8),
        paint("Pilot's Jersey", "#2c4a78", price=2.8),
        paint("Bollard Iron", "#585b5e", Kind.METALLIC, owned=1, price=2.8),
        paint("Tin Bailer", "#b3b7ba", Kind.METALLIC, price=2.8),
        paint("Silt Wash", "#4a3b2a", Kind.WASH, "Ninelock", owned=1, price=3.4),
        paint("Bilge Wash", "#2a2d36", Kind.WASH, "Ninelock", owned=1, price=3.4),
        paint("Kelp Wash", "#3b4427", Kind.WASH, "Ninelock", price=3.4),
        paint("Stern Light Glaze", "#c4511f", Kind.GLAZE, "Ninelock", price=3.4),
        paint("Clear Medium", None, Kind.MEDIUM, "Ninelock", owned=1, price=3.4),
        paint("Slate Undercoat", "#6b737a", Kind.PRIMER, "Sternpost", size=150.0, comes_as="can", owned=1,
              hazards=(name("H222"), name("H229"))),
        paint("Towpath Paste", "#6e5c48", Kind.PASTE, "Sternpost", size=100.0, price=6.0),
        paint("Dredged Rust", "#9a552d", Kind.PIGMENT, "Sternpost", size=30.0, price=4.0),
        paint("Calm Matt", None, Kind.VARNISH, "Sternpost", size=150.0, comes_as="can", finish="matt", owned=1,
              hazards=(name("H222"), name("EUH208"))),
    ),
    mixes=(
        Mix(name="Wet Wool wash", parts=parts(("Bilge Wash", 5), ("Kelp Wash", 2), ("Clear Medium", 1)), span=HERE),
        Mix(name="Rained-on slate", parts=parts(("Ferryman's Slate", 3), ("Pilot's Jersey", 1)), span=HERE),
    ),
)  # fmt: skip


def photo(file: str, alt: str) -> Photo:
    return Photo(file=file, path=f"guides/ferry-watch/{file}", alt=alt, span=HERE)


def ferry_watch() -> Guide:
    """Ten figures, a wash over everything, two stops."""
    return Guide(
        slug="ferry-watch",
        file=HERE.file,
        title="Ferry watch in wet oilskins",
        summary="Ten watchmen of the night ferry, done over two evenings.",
        author="Odo Tansley",
        date=dt.date(2026, 3, 14),
        tags=("ferry watch", "batch"),
        scale=Scale(ratio=56, text="1:56", given=True),
        base=25,
        figures=10,
        cover=photo("finished.jpg", "Five watchmen in yellow coats on a wooden jetty"),
        tools=(Item(name="size 2 brush", span=HERE), Item(name="worn flat brush", purpose="dry brushing", span=HERE)),
        materials=(Item(name="river sand", purpose="the bases", amount="a spoonful", span=HERE),),
        made=(PaintedBatch(date=dt.date(2026, 3, 12), figures=10, note="the first ten"),),
        leave=(name("soles"),),
        entries=(
            step("Prime", uses("Slate Undercoat"), technique="spray", once=10, each=1 / 3, dry=30, rest=True,
                 mind="Hold the can a forearm away and keep it moving."),
            step("Coats", uses("Oilskin Ochre"), ("coat",), technique="base coat", each=4, dry=15, coats=2,
                 holds_area=True, brush="size 2", thin=Thin(text="3:1 water", paint_share=0.75),
                 instead=(Instead(parts=parts(("Brass Lamp", 1)), note="warmer and a little darker", span=HERE),),
                 photos=(photo("coats.jpg", "A pair of even coats of ochre on the oilskins"),), at=245_000,
                 mind="the collar, where a slip shows", look_for="no grey shows through on the shoulders",
                 stray=(name("trousers"),)),
            step("Trousers and caps", mixed(("Ferryman's Slate", 3), ("Saltpan White", TOUCH)), ("trousers", "cap"), technique="base coat", each=2.5, dry=10, holds_area=True, brush="size 2"),
            step("Faces and hands", uses("Deckhand"), ("skin",), technique="base coat", each=1.5, dry=10, holds_area=True,
                 brush="size 1"),
            step("Lamps and boathooks", uses("Bollard Iron"), ("iron",), technique="base coat", each=1, dry=10,
                 holds_area=True, brush="size 1"),
            step("Darken the folds", uses("Wet Wool wash"), ("coat", "trousers", "cap", "skin"), technique="wash",
                 each=7 / 6, dry=40, brush="size 4", look_for="it gathers in the folds and leaves the edges",
                 if_wrong="lift a puddle with a damp brush while it is wet"),
            stop("Fit to field"),
            step("Shoulders and hems", uses("Buoy in Sun"), ("coat",), technique="edge highlight", each=2, dry=5,
                 brush="size 0", spots="shoulders, cuffs, the hem in front",
                 photos=(photo("edges.jpg", "Bright edges along the hem"),)),
            step("Cheeks and knuckles", uses("Cold Cheeks"), ("skin",), technique="highlight", each=1, dry=3, optional=True),
            step("Jetty planks", uses("Towpath Paste"), ("base",), technique="paste", each=2, dry=Dry(air=480 * MINUTE, warm=60 * MINUTE),
                 rest=True, shared="jetty-base"),
            step("Dry brush the planks", uses("Ropewalk"), ("base",), technique="dry brush", each=0.5, dry=1,
                 shared="jetty-base"),
            stop("Fit to stand on the jetty"),
            step("Rust", uses("Dredged Rust"), ("iron",), technique="pigment", each=0.5, dry=30),
            step("Seal", uses("Calm Matt"), technique="spray", once=10, each=0.25, dry=60),
            step("Puddles", NOTHING, ("base",), once=2, each=1, materials=(Item(name="gloss gel", span=HERE),)),
        ),
        body=Body(
            before=Passage(html="<p>They come off the last boat at four in the morning, and it has always rained.</p>"),
            under={1: Passage(html="<p>Work down from the shoulders. <em>The second coat</em> waits until the first is dry.</p>")},
            after=Passage(html="<h2>What I would do otherwise</h2><p>Fewer buttons.</p>"),
        ),
        span=HERE,
    )  # fmt: skip


def short_note() -> Guide:
    """One step, no photo, no tag, nothing given."""
    return Guide(
        slug="eel-seller",
        file="guides/eel-seller.md",
        title="The eel seller",
        entries=(step("Apron", uses("Saltpan White"), ("apron",)),),
        span=replace(HERE, file="guides/eel-seller.md"),
    )


@dataclass(frozen=True)
class FakePicture:
    """A photo that nobody encoded."""

    stem: str
    sizes: tuple[tuple[int, int], ...] = ((480, 360), (960, 720), (1600, 1200))

    def path(self, width: int, ending: str) -> str:
        return f"assets/photos/{self.stem}-{width}.{ending}"


PICTURES = {f"guides/ferry-watch/{stem}.jpg": FakePicture(stem) for stem in ("finished", "coats", "edges")}


def archive(*guides: Guide, **site) -> Archive:
    """An archive of these guides, the ferry watch and the short note where none is given."""
    shown = guides or (short_note(), ferry_watch())
    if "url" in site:
        site["url"] = WebAddress.parse(site["url"])
    return Archive(site=Site(**{"title": "The Delta Bench", "author": "the ferry club"} | site), palette=PALETTE,
                   guides=tuple(sorted(shown, key=lambda guide: guide.slug)))  # fmt: skip
