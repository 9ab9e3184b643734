"""What in a step calls for a caution: its technique, its paints, and the words it is written in.

Words are searched narrowly, so that a leading edge is not lead and sea spray is no spray can. Where a word may mean
either, the caution is given.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from guidegen.base.suggest import folded
from guidegen.base.units import DAY
from guidegen.computing.colour.blend import ingredients
from guidegen.computing.guide import caution_signs_german as german
from guidegen.computing.guide.hazards import read_entry
from guidegen.computing.guide.scheme import SchemeStep
from guidegen.model.guide import Guide, Step
from guidegen.model.names import Item
from guidegen.model.paint import Kind, Paint, Palette
from guidegen.model.technique import AIRBORNE, is_known

SOLVENT_BINDERS = frozenset({"enamel", "oil", "lacquer"})

# Techniques for which no brush is taken to the lips.
BRUSHLESS = AIRBORNE | {"sponge", "paste"}

# Codes of a label that call for a caution of practice: CLP Annex III and UN GHS Annex 3.
BY_CODE = {
    "EUH204": "isocyanate",
    "EUH205": "uncured",
    "EUH202": "super glue",
    "EUH201": "lead",
    "EUH201A": "lead",
    "H222": "sprays",
    "H223": "sprays",
    "H229": "sprays",
    "H224": "solvents",
    "H225": "solvents",
    "H226": "solvents",
}


def _words(*patterns: str) -> re.Pattern[str]:
    return re.compile("|".join(f"(?:{pattern})" for pattern in patterns), re.IGNORECASE)


def _in_both(
    english: dict[str, tuple[str, ...]], other: Mapping[str, tuple[str, ...]]
) -> dict[str, re.Pattern[str]]:
    keys = dict.fromkeys((*english, *other))
    return {key: _words(*english.get(key, ()), *other.get(key, ())) for key in keys}


# Named anywhere in a step, or among a guide's materials and tools.
_ANYWHERE = _in_both(
    {
        "isocyanate": (
            r"\bisocyanates?\b",
            r"\b2[ -]?k\b",
            r"\b(?:2|two)-?(?:pack|pot)\b",
            r"\b(?:2|two) pack (?:paint|primer|varnish|lacquer|clear ?coat|polyurethane)s?\b",
            r"\b(?:2|two)[ -]?(?:part|component) (?:paint|primer|varnish|lacquer|clear ?coat|polyurethane)s?\b",
        ),
        "solvents": (
            r"\b(?:white|mineral|methylated|surgical) spirits?\b",
            r"\bturp(?:s|entine)\b",
            r"\b(?:naphtha|acetone|xylene|toluene|lighter fluid|solvents?)\b",
            r"\b(?:lacquer|enamel|cellulose|oil paint|synthetic)[ -]thinners?\b",
            r"\b(?:isopropyl|rubbing|isopropanol|denatured)(?: alcohol)?\b",
            r"\b(?-i:IPA)\b",
            r"\b(?:enamel|lacquer|oil) (?:paint|wash|varnish|colou?r)(?:es|s)?\b",
        ),
        "oily rags": (
            r"\b(?:linseed|walnut|tung|poppy(?:seed)?|drying) oil\b",
            r"\boil (?:paint|wash)(?:es|s)?\b",
        ),
        "uncured": (
            r"\bepoxy\b",
            r"\b(?:uncured|liquid|casting|pouring|uv|two[ -]part|water[ -]effects?|clear) resin\b",
            r"\b(?:two|2)[ -]part putty\b",
        ),
        "lead": (
            r"\b(?:lead|old white[ -]metal) (?:figures?|castings?|alloy|miniatures?|soldiers?|weights?|shot|sheet)\b",
            r"\b(?:lead|old white[ -]metal) (?:foil|wire|models?|bod(?:y|ies)|parts?|swarf|dust)\b",
            r"\b(?:made|cast) (?:of|in|from) lead\b",
            r"\blead[ -](?:based|bearing|containing)\b",
            r"\blead paint\b",
            r"\bcontains lead\b",
        ),
        "super glue": (r"\bsuper[ -]?glue", r"\bcyanoacrylate", r"\b(?-i:CA) glue\b", r"\binstant glue\b"),
        "warm air": (r"\bhair[ -]?dr[yi]er", r"\bheat[ -]?gun", r"\bhot[ -]air (?:gun|blower)"),
        "stripping": (
            r"\bpaint[ -]?(?:stripper|remover)\b",
            r"\bstripping (?:fluid|agent|gel|bath)\b",
            r"\bstrip(?:ped|ping)? (?:the )?(?:old )?paint\b",
        ),
        "uv resin": (
            r"\bu\.?v\.?[ -](?:curing )?(?:resin|gel|glue|varnish)\b",
            r"\blight[ -]cur(?:ed|ing) resin\b",
        ),
        "ammonia": (r"\bammonia\b", r"\b(?:chlorine |household )bleach\b"),
        "dropper": (
            r"\b(?:clogged|blocked) (?:dropper|nozzle|tip|bottle)s?\b",
            r"\b(?:dropper|nozzle|tip)s? (?:is |are |that )*(?:clogged|blocked)\b",
            r"\bdropper (?:bottle|pot)s?\b",
        ),
    },
    german.ANYWHERE,
)

# Named in what a step does: its title and technique.
_DOING = _in_both(
    {
        "airbrush": (r"\bair[ -]?brush(?:es|ed|ing)?\b(?! (?:paint|thinner|medium|cleaner|look|style))",),
        "blades": (
            r"\bknife work\b",
            r"\b(?:cut|cutting) (?:away|off|out|free|loose)\b",
            r"\bcarv(?:e|es|ed|ing)\b",
            r"\bscrap(?:e|es|ed|ing) (?:away|off|the (?:mould|mold|seam)|mould|mold)",
        ),
        "curing": (r"\bmasking\b", r"\bmask(?:ed)? (?:off|over|out|up)\b"),
    },
    german.DOING,
)

# Named among the tools and materials, or as brush or thinner.
_BENCH = _in_both(
    {
        "sprays": (
            r"\bspray[ -]?(?:cans?|paints?|varnish|primer|undercoat|glue)\b",
            r"\baerosols?\b",
            r"\brattle",
        ),
        "airbrush": (r"\bair[ -]?brush(?:es)?\b(?! (?:paint|thinner|medium|cleaner|flow|primer|varnish))",),
        "blades": (
            r"(?<!palette )(?<!putty )(?<!painting )\bkni(?:fe|ves)\b",
            r"\bscalpels?\b",
            r"\brazor",
            r"\bblades?\b",
            r"\bsaws?\b",
            r"\b(?:side cutters|clippers|snips)\b",
            r"\bpin vi[cs]e\b",
        ),
        "curing": (r"\bmasking (?:tape|fluid|putty|film|liquid|medium|sheet)s?\b",),
        "magnifier": (r"\bmagnif(?:ier|ying)\w*", r"\bloupes?\b"),
    },
    german.BENCH,
)

# In a title whose technique is not told, or is told in a word of the author's own.
_SPRAYING = _words(
    r"(?<!sea[ -])(?<!salt[ -])(?<!wave[ -])(?<!bow[ -])(?<!river[ -])\b(?:re-?)?spray(?:s|ed|ing)?\b"
    r"(?! of\b)(?! bottle)",
    r"\baerosol",
    r"\brattle[ -]?can",
    *german.SPRAYING,
)

# Named as what is painted with, a colour that only looks like it left out.
_HEAVY_METALS = _words(
    r"\b(?:cadmium|cobalt)\b(?! \w+ (?:hue|tone)\b)(?! (?:hue|tone)\b)", *german.HEAVY_METALS
)
_FOAM = _words(
    r"\b(?:foam (?:board|base|core|block|sheet|terrain)|foamboard|styrofoam|polystyrene foam|expanded polystyrene)s?\b",
    *german.FOAM,
)

_RESIN = _words(r"\bresin\b", *german.RESIN)
_RESIN_FIGURE = _words(
    r"\bresin (?:figures?|casts?|castings?|kits?|models?|parts?|prints?|miniatures?|busts?|bases?)\b",
    *german.RESIN_FIGURE,
)
_ABRADING = _words(
    r"\bsand(?:ed|ing|paper)\b",
    r"\bsand (?:the|down|smooth|off|back|flat|away|it|lightly)\b",
    r"(?<!single )(?<!rank and )\bfil(?:e|es|ed|ing)\b",
    r"\bsaw(?:s|ed|ing)?\b",
    r"\bdrill(?:s|ed|ing)?\b",
    r"\bscrap(?:e|es|ed|ing)\b",
    *german.ABRADING,
)
_SOLVENT_BASED = _words(r"\b(?:solvent|alcohol|spirit)[ -]based\b")

_DENIED_BEFORE = re.compile(
    rf"\b(?:no|without|instead of|rather than|free of|not|{german.DENIED_BEFORE}) (?:any |the )?$",
    re.IGNORECASE,
)
# How many letters before a word are searched for a denial, more than one has: so a long text is not searched from its
# beginning for each of its words.
_NEAR = 60
_DENIED_AFTER = re.compile(rf"[ -]free\b|{german.DENIED_AFTER}", re.IGNORECASE)


def says(pattern: re.Pattern[str], text: str) -> bool:
    """Whether a text names something other than in words like “no …”, “without …” or “…-free”."""
    return any(
        not _DENIED_BEFORE.search(text, max(0, found.start() - _NEAR), found.start())
        and not _DENIED_AFTER.match(text, found.end())
        for found in pattern.finditer(text)
    )


def step_paints(step: SchemeStep, palette: Palette) -> tuple[Paint, ...]:
    """The palette paints that a step uses, mixes broken down, each once."""
    found = {id(part.paint): part.paint for blend in step.brushed for part in ingredients(blend, palette)}
    return tuple(found.values())


def step_signs(step: SchemeStep, paints: tuple[Paint, ...]) -> set[str]:
    """The cautions of practice that a step with these paints calls for by itself, by their keys."""
    doing = f"{step.step.title}\n{step.step.technique}"
    bench = "\n".join(_bench(step.step))
    named = "\n".join((doing, bench, *_prose(step.step), *_of_paints(step.step, paints)))
    found = {key for key, pattern in _ANYWHERE.items() if says(pattern, named)}
    found |= {key for key, pattern in _DOING.items() if says(pattern, doing)}
    found |= {key for key, pattern in _BENCH.items() if says(pattern, bench)}
    found |= {sign for paint in paints for sign in _paint_signs(paint)}
    found |= set(_technique_signs(step, paints))
    if says(_ABRADING, named) and says(_RESIN, named):
        found.add("resin dust")
    if step.step.dry.warm is not None:
        found.add("warm air")
    if says(_HEAVY_METALS, "\n".join((bench, *_of_paints(step.step, paints)))):
        found.add("cadmium")
    if says(_FOAM, named) and "sprays" in found:
        found.add("foam")
    return found


def guide_signs(guide: Guide) -> set[str]:
    """The cautions that a guide as a whole calls for: its materials, tools, tags and opening lines."""
    bench = "\n".join(_items((*guide.materials, *guide.tools)))
    opening = "\n".join((guide.title, guide.summary, *guide.tags))
    found = {key for key, pattern in (_ANYWHERE | _BENCH).items() if key != "curing" and says(pattern, bench)}
    tags = {folded(tag) for tag in guide.tags}
    if "lead" in tags or says(_ANYWHERE["lead"], opening):
        found.add("lead")
    if "resin" in tags or says(_RESIN_FIGURE, f"{opening}\n{bench}"):
        found.add("resin dust")
    return found


def uncured_under(before: Iterable[SchemeStep], paints: Mapping[int, tuple[Paint, ...]]) -> bool:
    """Whether the last of the acrylic paint laid by the steps before, by their numbers, has less than a day to cure."""
    laid = [earlier for earlier in before if any(not is_solvent(paint) for paint in paints[earlier.n])]
    return bool(laid) and laid[-1].step.dry.air < DAY


def wants_cured(step: SchemeStep, paints: Iterable[Paint]) -> bool:
    """Whether paint under a step has to be cured, not only dry: cans, oil washes, solvent and tape."""
    bench = "\n".join(_bench(step.step))
    doing = f"{step.step.title}\n{step.step.technique}"
    return (
        step.technique.name in AIRBORNE - {"airbrush"}
        or step.technique.name == "oil wash"
        or any(is_solvent(paint) for paint in paints)
        or says(_DOING["curing"], doing)
        or says(_BENCH["curing"], bench)
        or says(_ANYWHERE["solvents"], bench)
    )


def is_solvent(paint: Paint) -> bool:
    """Whether what a paint is bound in needs solvent."""
    return paint.kind is Kind.OIL or paint.binder in SOLVENT_BINDERS or says(_SOLVENT_BASED, paint.note)


def _paint_signs(paint: Paint) -> Iterator[str]:
    can = paint.comes_as == "can"
    if can:
        yield "sprays"
    if is_solvent(paint):
        yield "solvents"
    if paint.kind is Kind.OIL or paint.binder == "oil":
        yield "oily rags"
    if paint.kind is Kind.PIGMENT:
        yield "powder"
    for entry in paint.hazards:
        for found in read_entry(entry.text):
            sign = BY_CODE.get(found.code)
            if sign:
                yield sign


def _technique_signs(step: SchemeStep, paints: tuple[Paint, ...]) -> Iterator[str]:
    technique = step.technique.name
    known = bool(step.step.technique) and is_known(step.step.technique)
    if technique == "airbrush":
        yield "airbrush"
    elif technique in AIRBORNE:
        yield "sprays"
    elif not known:
        if says(_SPRAYING, f"{step.step.title}\n{step.step.technique}"):
            yield "sprays"
        if any(paint.comes_as == "airbrush" for paint in paints):
            yield "airbrush"
    if technique == "oil wash":
        yield from ("solvents", "oily rags")
    if technique == "pigment":
        yield "powder"
    if technique not in BRUSHLESS and any(paint.comes_as != "can" for paint in paints):
        yield "brushes"


def _bench(step: Step) -> Iterator[str]:
    yield from _items((*step.materials, *step.tools))
    yield step.brush
    if step.thin:
        yield step.thin.text


def _items(items: Iterable[Item]) -> Iterator[str]:
    for item in items:
        yield from (item.name, item.purpose)


def _prose(step: Step) -> tuple[str, ...]:
    return (step.mind, step.look_for, step.if_wrong, step.spots)


def _of_paints(step: Step, paints: Iterable[Paint]) -> Iterator[str]:
    for paint in paints:
        yield from (paint.name, *paint.aliases, paint.note)
        if step.thin:
            yield paint.thinner
