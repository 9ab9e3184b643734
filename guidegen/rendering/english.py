"""Every word of the interface in English."""

from __future__ import annotations

from guidegen.rendering.english_about import ABOUT
from guidegen.rendering.english_archive import ARCHIVE
from guidegen.rendering.english_bench import BENCH
from guidegen.rendering.english_care import CARE
from guidegen.rendering.english_guide import GUIDE
from guidegen.rendering.english_handling import HANDLING
from guidegen.rendering.english_hazards import HAZARDS, ORIGINS
from guidegen.rendering.english_plans import PLANS
from guidegen.rendering.english_sent import SENT
from guidegen.rendering.english_sharing import SHARING
from guidegen.rendering.english_techniques import NAMES, TECHNIQUES
from guidegen.rendering.language import Language, Phrase, under

_PHRASES: dict[str, Phrase] = {
    # Everywhere
    "skip": "To the text",
    "nav.site": "Site",
    "nav.guides": "Guides",
    "nav.paints": "Paints",
    "nav.shelf": "Shelf",
    "nav.techniques": "Techniques",
    "nav.cautions": "Cautions",
    "nav.page": "On this page",
    "foot.colour": "Screens and printers lie about colour. Dab the real paint into the ring beside each chip on the printed page.",
    "foot.safety": "The label and the safety data sheet come first, then this page.",
    "foot.made": "Published with guidegen.",
    # Units; the figures are already written as the language writes them
    "unit.d": "{n} d",
    "unit.h": "{n} h",
    "unit.min": "{n} min",
    "unit.s": "{n} s",
    "parts": {"one": "{n} part", "other": "{n} parts"},
    "parts.touch": "a touch",
    "figures.n": {"one": "{n} figure", "other": "{n} figures"},
    "figures.status": "{figures}: {hands} hands on, {clock} by the clock.",
    # Kinds of pot
    "kind.paint": "paint",
    "kind.primer": "undercoat",
    "kind.wash": "wash",
    "kind.glaze": "glaze",
    "kind.ink": "ink",
    "kind.stain": "stain",
    "kind.metallic": "metal",
    "kind.pigment": "pigment",
    "kind.effect": "effect",
    "kind.oil": "oil",
    "kind.paste": "paste",
    "kind.medium": "medium",
    "kind.thinner": "thinner",
    "kind.varnish": "varnish",
    "kind.mix": "house mix",
    # Chips
    "chip.estimate": "colour estimated",
    "chip.touch": "with a touch it may be anything from",
    "chip.to": "to",
    "chip.no-colour": "colour not known",
    "close.same": "can’t be told apart",
    "close.side-by-side": "differs only side by side",
    "close.near": "near",
    "close.related": "related",
    "close.unlike": "unlike",
    # Home
    "home.count": {"one": "{n} guide", "other": "{n} guides"},
    "home.pots": {"one": "{n} pot", "other": "{n} pots"},
    "home.none": "No guides yet.",
    # All paints
    "paints.all": "Paints",
    "paints.count": {"one": "{n} pot", "other": "{n} pots"},
    "paints.owned": "{n} of them on the shelf",
    "paints.no-range": "Of no range",
    "paints.mixes": "House mixes",
    "paints.used": {"one": "in {n} guide", "other": "in {n} guides"},
    "paints.ranges": "Ranges",
    # The shelf
    "shelf.title": "The shelf",
    "shelf.count": {"one": "{n} paint at home", "other": "{n} paints at home"},
    "shelf.what": "What the pots you own can paint, each guide for its own number of figures.",
    "shelf.ready": "Can be painted now",
    "shelf.none-ready": "No guide yet: each lacks at least one pot.",
    "shelf.one-short": "One pot short",
    "shelf.short": "More than one pot short",
    "shelf.lacks": {"one": "lacks {n} pot", "other": "lacks {n} pots"},
    "shelf.wanted": "Worth buying",
    "shelf.wanted-what": "By how many guides each would complete.",
    "shelf.completes": {"one": "completes {n} guide", "other": "completes {n} guides"},
    "shelf.lacking": {"one": "lacking in {n} guide", "other": "lacking in {n} guides"},
    "shelf.gone": "No longer sold",
    "shelf.used-by": "Used by",
    "shelf.closest": "closest still sold",
    "shelf.no-closest": "Nothing still sold comes near it.",
    # One pot
    "pot.code": "Code",
    "pot.finish": "Finish",
    "pot.covers": "Covers",
    "pot.binder": "Binder",
    "pot.comes-as": "Comes as",
    "pot.size": "Size",
    "pot.ml": "{n} ml",
    "pot.price": "Price",
    "pot.thinner": "Thin with",
    "pot.shelf": "Shelf",
    "pot.owned": {"one": "{n} pot", "other": "{n} pots"},
    "pot.not-owned": "none",
    "pot.also": "Also called",
    "pot.colour": "Colour",
    "pot.parts": "What is in it",
    "pot.used": "Used in",
    "pot.unused": "No guide uses it yet.",
    "pot.mixes": "House mixes with it",
    "pot.twin": "Matches",
    "pot.film": "Above, a film of it over white and over grey; at the foot, where it pools.",
    "pot.closest-what": "By colour alone, chip against chip (CIEDE2000), among paints that behave alike.",
    "pot.closest-none": "Nothing in the palette comes near.",
    "finish.matt": "matt", "finish.satin": "satin", "finish.gloss": "gloss",
    "covers.well": "well", "covers.fair": "fairly", "covers.poor": "poorly",
    "binder.acrylic": "acrylic", "binder.enamel": "enamel", "binder.oil": "oil", "binder.lacquer": "lacquer",
    "comes-as.pot": "pot", "comes-as.can": "spray can", "comes-as.airbrush": "airbrush bottle",
    # Techniques
    "techniques.title": "Techniques",
    "techniques.what": "What each is, in plain words. Times and brushes are common practice; your own paint may differ.",
    "technique.dries": "Usually dry in",
    "technique.guides": "In use in",
    "role.cover": "Covering",
    "role.film": "See-through films",
    "role.edges": "On the edges",
    "role.finish": "Finishing",
    "role.ground": "Groundwork",
    "brush.can": "can", "brush.flat": "flat", "brush.2": "size 2", "brush.1": "size 1", "brush.0": "size 0",
    "brush.00": "size 00", "brush.foam": "foam", "brush.old flat": "old flat", "brush.soft flat": "soft flat",
    "brush.old soft": "old, soft", "brush.spatula": "spatula", "brush.old": "old",
    # Cautions
    "care.title": "Cautions",
    "care.practice": "At the bench",
    "care.labels": "What the labels say",
    "care.label": "Label",
    "care.source": "Source: {source}",
    # Not found
    "lost.title": "Nothing lies here",
    "lost.text": "The page has moved, or the address has a slip in it.",
    "moved.text": "This guide has moved.",
    "lost.home": "To all guides",
    # While a site is being published
    "soon.title": "Being published",
    "soon.text": "This page will be here in a moment.",
    "soon.home": "To the first page",
}  # fmt: skip


def _plural(n: float) -> str:
    return "one" if n == 1 else "other"


ENGLISH = Language(
    code="en",
    phrases={
        **_PHRASES,
        **ABOUT,
        **ARCHIVE,
        **GUIDE,
        **PLANS,
        **BENCH,
        **CARE,
        **HANDLING,
        **SENT,
        **SHARING,
        **under("hazard", HAZARDS),
        **under("hazard.source", ORIGINS),
        **under("technique.name", NAMES),
        **under("technique.words", TECHNIQUES),
    },
    plural=_plural,
    months=(
        "January", "February", "March", "April", "May", "June", "July", "August", "September", "October",
        "November", "December",
    ),
)  # fmt: skip
