"""Hypothesis strategies for everything that laws are tested on."""

from __future__ import annotations

import datetime as dt

from hypothesis import strategies as st

from guidegen.base.source import Span
from guidegen.base.suggest import folded
from guidegen.base.units import HOUR, MINUTE
from guidegen.computing.guide.batch import Pass
from guidegen.model.guide import Dry, Guide, PaintChoice, PaintUse, Scale, Step, Stop, Thin
from guidegen.model.names import Name, Part
from guidegen.model.paint import Kind, LetDown, Mix, Paint, Palette
from guidegen.model.plan import Plan, Timetable, Unit
from guidegen.model.technique import TECHNIQUES
from guidegen.reading.paint_lists.rows import PaintRow

# Time: passes of a batch, and plans over sittings


def milliseconds(*minutes: float) -> st.SearchStrategy[int]:
    """One of some times in minutes, now and then off by an odd part of one; nought is among them."""
    usual = st.sampled_from([0, *(round(m * MINUTE) for m in minutes)])
    odd = st.integers(1, 3 * MINUTE)
    return st.one_of(usual, usual, usual, st.builds(lambda ms, more: ms + more, usual, odd))


ONCE = milliseconds(0.5, 2, 5, 10)
EACH = milliseconds(1 / 3, 1, 7 / 6, 2, 4, 6)
DRY = milliseconds(3, 10, 15, 30, 40, 90)


@st.composite
def passes(draw: st.DrawFn, *, most: int = 7, areas: int = 4) -> tuple[Pass, ...]:
    """Passes over a few areas, holding figures or areas, some with no time at all."""
    count = draw(st.integers(0, most))
    return tuple(
        Pass(
            n=n,
            areas=tuple(sorted(draw(st.sets(st.integers(0, areas - 1), min_size=1, max_size=areas)))),
            once=draw(ONCE),
            each=draw(EACH),
            dry=draw(DRY),
            holds_area=draw(st.booleans()),
        )
        for n in range(1, count + 1)
    )


@st.composite
def timed_guides(draw: st.DrawFn, slug: str, *, stops: bool = True) -> Guide:
    """A guide with times, coats, areas, rests and stops, some of it sprayed, and nothing to look at."""
    place = Span.of_file(f"guides/{slug}/guide.md")
    entries: list[Step | Stop] = []
    for number in range(1, draw(st.integers(1, 4)) + 1):
        areas = draw(st.sets(st.sampled_from(("coat", "hood", "lantern")), max_size=2))
        entries.append(
            Step(
                title=f"Step {number}",
                technique=draw(st.sampled_from(("base coat", "base coat", "wash", "airbrush"))),
                areas=tuple(Name(text=area, span=place) for area in sorted(areas)),
                once=draw(ONCE),
                each=draw(EACH),
                dry=Dry(air=draw(st.one_of(DRY, DRY, st.just(20 * HOUR)))),
                holds_area=draw(st.booleans()),
                rest=draw(st.booleans()),
                coats=draw(st.sampled_from((1, 1, 2))),
                span=place,
            )
        )
        if stops and draw(st.booleans()):
            entries.append(Stop(name=f"Stop {number}", span=place))
    return Guide(slug=slug, file=place.file, title=slug, entries=tuple(entries), span=place)


# Hours of a day, in minutes: short, long, over midnight, overlapping, touching, none.
DAYS_HOURS: tuple[tuple[tuple[int, int], ...], ...] = (
    (),
    ((1200, 1230),),
    ((1200, 1320),),
    ((1380, 1500),),
    ((600, 640), (840, 960)),
    ((600, 700), (660, 720)),
    ((0, 45), (45, 90)),
)


@st.composite
def timetables(draw: st.DrawFn, start: dt.date) -> Timetable:
    """A week, and perhaps some dates near the start that are otherwise."""
    weekly = {day: draw(st.sampled_from(DAYS_HOURS)) for day in draw(st.sets(st.integers(0, 6), max_size=5))}
    shifts = draw(st.sets(st.integers(0, 9), max_size=2))
    dated = {start + dt.timedelta(days=shift): draw(st.sampled_from(DAYS_HOURS)) for shift in sorted(shifts)}
    return Timetable(weekly={day: hours for day, hours in weekly.items() if hours}, dated=dated)


@st.composite
def plans(draw: st.DrawFn) -> tuple[Plan, dict[str, Guide]]:
    """A plan of one to three units in batches, and the guides they are painted by."""
    start = dt.date(2026, 4, 6) + dt.timedelta(days=draw(st.integers(0, 6)))
    place = Span.of_file("plans/regatta.yaml")
    guides = {slug: draw(timed_guides(slug)) for slug in ("ferry-watch", "heron-riders")}
    units = []
    for _ in range(draw(st.integers(1, 3))):
        guide = guides[draw(st.sampled_from(sorted(guides)))]
        stops = [entry.name for entry in guide.entries if isinstance(entry, Stop)]
        to = draw(st.sampled_from([None, None, *stops]))
        units.append(
            Unit(
                guide=Name(text=guide.slug, span=place),
                figures=draw(st.integers(1, 5)),
                batch=draw(st.sampled_from((None, None, 1, 2, 3))),
                to=None if to is None else Name(text=to, span=place),
                span=place,
            )
        )
    plan = Plan(
        slug="regatta",
        file=place.file,
        title="Regatta",
        start=start,
        deadline=draw(st.sampled_from((None, start, start + dt.timedelta(days=4)))),
        sittings=draw(timetables(start)),
        spraying=draw(st.one_of(st.none(), timetables(start))),
        skip=frozenset({start + dt.timedelta(days=1)}) if draw(st.booleans()) else frozenset(),
        units=tuple(units),
        span=place,
    )
    return plan, guides


# Colour: chips, pots, mixtures

hexes = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")
greys = st.integers(0, 255).map(lambda level: "#" + f"{level:02x}" * 3)
parts = st.floats(0.1, 20.0).map(lambda amount: round(amount, 3))
labs = st.tuples(st.floats(0, 100), st.floats(-128, 128), st.floats(-128, 128))
_PALETTE = Span.of_file("palette.yaml")


@st.composite
def coloured_pots(
    draw: st.DrawFn, *, least: int = 1, most: int = 5, colours: st.SearchStrategy[str] = hexes
) -> tuple[Paint, ...]:
    """Paints with a colour, a strength, and now and then a let-down with white."""
    pots = []
    for number in range(1, draw(st.integers(least, most)) + 1):
        measured = draw(st.one_of(st.none(), st.none(), colours))
        pots.append(
            Paint(
                name=f"Jar {number}",
                colour=draw(colours),
                strength=draw(st.sampled_from((0.5, 1.0, 1.0, 3.0))),
                let_down=LetDown(colour=measured, span=_PALETTE) if measured else None,
                span=_PALETTE,
            )
        )
    return tuple(pots)


# Amounts: a shelf, and guides that use it up

label_codes = st.sampled_from(
    ("H222", "H226", "H229", "H317", "EUH204", "EUH208 2-octyl-2H-isothiazol-3-one")
)


@st.composite
def shelves(draw: st.DrawFn) -> Palette:
    """A few pots of all kinds with sizes, prices and labels, some owned, and house mixes of them."""
    pots = tuple(
        Paint(
            name=f"Pot {number}",
            colour="#4c5660",
            kind=draw(st.sampled_from(list(Kind))),
            binder=draw(st.sampled_from(("", "acrylic", "enamel", "oil"))),
            comes_as=draw(st.sampled_from(("", "pot", "can", "airbrush"))),
            size=draw(st.sampled_from((None, 5.0, 12.0, 17.5))),
            price=draw(st.sampled_from((None, 2.8, 11.95))),
            owned=draw(st.sampled_from((0, 0, 1, 3))),
            hazards=tuple(Name(text=code, span=_PALETTE) for code in draw(st.sets(label_codes, max_size=2))),
            span=_PALETTE,
        )
        for number in range(1, 5)
    )
    mixes = tuple(
        Mix(name=f"Mix {number}", parts=draw(mixtures([pot.name for pot in pots])), span=_PALETTE)
        for number in range(1, 3)
    )
    return Palette(paints=pots, mixes=mixes)


@st.composite
def mixtures(draw: st.DrawFn, names: list[str]) -> tuple[Part, ...]:
    """One to three of some names, in parts."""
    chosen = draw(st.lists(st.sampled_from(names), min_size=1, max_size=3, unique=True))
    return tuple(Part(name=Name(text=name, span=_PALETTE), amount=draw(parts)) for name in chosen)


@st.composite
def using_steps(draw: st.DrawFn, palette: Palette) -> Step:
    """A step by any technique, known or not, with one, several or mixed paints, or none."""
    names = [pot.name for pot in (*palette.paints, *palette.mixes)]
    use = draw(st.sampled_from((PaintUse.SIDE_BY_SIDE, PaintUse.SIDE_BY_SIDE, PaintUse.MIXED, PaintUse.NONE)))
    chosen = draw(mixtures(names)) if use is not PaintUse.NONE else ()
    if use is PaintUse.SIDE_BY_SIDE:
        chosen = tuple(Part(name=part.name, amount=1.0) for part in chosen)
    return Step(
        title=draw(st.sampled_from(("Coats", "Leading edges", "Hull"))),
        technique=draw(st.sampled_from(("", "spray", "dabbing", *TECHNIQUES))),
        paint=PaintChoice(use=use, parts=chosen, span=_PALETTE),
        coats=draw(st.sampled_from((1, 1, 2))),
        thin=draw(st.sampled_from((None, None, Thin(text="2:1 water", paint_share=2 / 3)))),
        share=draw(st.sampled_from((None, None, 0.3, 1.0))),
        amount=draw(st.sampled_from((None, None, None, 0.25))),
        dry=Dry(warm=draw(st.sampled_from((None, None, MINUTE)))),
        span=_PALETTE,
    )


@st.composite
def using_guides(draw: st.DrawFn, palette: Palette) -> Guide:
    """A guide of a few such steps, with or without a base or a measured surface."""
    return Guide(
        slug="ferry-watch",
        file="guides/ferry-watch.md",
        title="Ferry watch",
        scale=draw(st.sampled_from((Scale(), Scale(ratio=24.0, text="1:24", given=True)))),
        base=draw(st.sampled_from((None, 25.0))),
        surface=draw(st.sampled_from((None, None, 40.0))),
        entries=tuple(draw(st.lists(using_steps(palette), max_size=5))),
        span=_PALETTE,
    )


# Palette files: names as people have them, and some that they should not

# Text of one line: what is no control character, no surrogate, and does not begin or end in space.
labels = (
    st.text(st.characters(exclude_categories=("Cc", "Cs", "Cn")), min_size=1, max_size=12)
    .map(lambda text: " ".join("".join(c for c in text if c.isprintable()).split()))
    .filter(bool)
)


@st.composite
def paint_rows(draw: st.DrawFn) -> tuple[PaintRow, ...]:
    """Paints as plain values, each with a name of its own."""
    names = draw(st.lists(labels, max_size=4, unique_by=folded))
    return tuple(
        PaintRow(
            name=name,
            range=draw(st.one_of(st.just(""), labels)),
            code=draw(st.sampled_from(("", "007", "=1", "a-1"))),
            kind=draw(st.sampled_from(list(Kind))),
            colour=draw(hexes),
            size=draw(st.sampled_from((None, 12.0, 17.5))),
            price=draw(st.sampled_from((None, 0.0, 2.85))),
            owned=draw(st.integers(0, 3)),
            discontinued=draw(st.booleans()),
            note=draw(st.one_of(st.just(""), labels)),
        )
        for name in names
    )
