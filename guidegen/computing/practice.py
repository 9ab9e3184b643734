"""The usual cautions of the bench, in plain words. Each says where it comes from; none replaces a label."""

from __future__ import annotations

from dataclasses import dataclass

_COMMON = "common practice, no source"
_PRECAUTIONS = "UN GHS, Annex 3, precautionary statements P210, P211, P251, P410+P412"


@dataclass(frozen=True, slots=True, kw_only=True)
class Practice:
    """A caution that goes with a way of working: what it is about in a word or two, and what to do."""

    subject: str
    text: str
    source: str


# In the order in which they are shown where two begin at the same step: the gravest first.
PRACTICE: dict[str, Practice] = {
    "isocyanate": Practice(
        subject="Two-pack paint",
        text="Two-pack paint hardened with isocyanate is not for use at home. Its mist, which cannot be seen, causes "
        "asthma for life, and no filter mask keeps it out: it needs air-fed breathing gear, a booth and trained "
        "people. Choose another paint.",
        source="Health and Safety Executive (Great Britain), guidance on spraying isocyanate paints",
    ),
    "sprays": Practice(
        subject="Spray cans",
        text="Spray outdoors, or where the air is drawn off, with the wind behind you, and wear a mask for paint mist "
        "and vapour. Keep away from flames, sparks and heaters. Never let a can get warmer than 50 °C, and never "
        "pierce or burn one, even when it is empty.",
        source=_PRECAUTIONS,
    ),
    "airbrush": Practice(
        subject="Airbrush",
        text="An airbrush puts paint into the air you breathe, water-based paint too. Draw the air off or spray "
        "outdoors, wear a mask with filters for particles and for vapour, and clean the airbrush the same way.",
        source=_COMMON,
    ),
    "warm solvent": Practice(
        subject="Warm air and solvent",
        text="Keep the hair dryer and the heat gun away from solvent, from spray cans and from paint that still "
        "smells of either: the vapour can catch fire. Let it dry by itself in moving air.",
        source="UN GHS, Annex 3, precautionary statement P210",
    ),
    "solvents": Practice(
        subject="Solvents",
        text="Open a window, and keep flames, sparks and warm air away. Close the bottle at once, wear nitrile "
        "gloves, and take what is left to a collecting point: it does not go down the sink.",
        source="UN GHS, Annex 3, precautionary statements P210, P233, P271, P280, P501",
    ),
    "oily rags": Practice(
        subject="Oily rags",
        text="Rags and paper with oil paint or a drying oil on them can grow hot and catch fire by themselves. "
        "Spread them out flat to dry outdoors before they go into the bin; never leave them in a heap.",
        source=_COMMON,
    ),
    "resin dust": Practice(
        subject="Resin dust",
        text="Resin dust harms the lungs. Sand and file it wet, wear an FFP3 mask, and wipe the dust up damp instead "
        "of blowing or sweeping.",
        source=_COMMON,
    ),
    "uncured": Practice(
        subject="Uncured resin and epoxy putty",
        text="Resin and epoxy putty that have not hardened can make the skin allergic for life. Wear nitrile gloves, "
        "let fresh air in, and wash with soap and water, not with solvent.",
        source=_COMMON,
    ),
    "lead": Practice(
        subject="Lead",
        text="Lead is a poison that stays in the body. Never file or sand it dry, wipe the swarf up wet, wash your "
        "hands before you eat or smoke, and keep figures and scrap away from children.",
        source=_COMMON,
    ),
    "super glue": Practice(
        subject="Super glue",
        text="Super glue bonds skin and eyes in seconds. Let fresh air in, protect your eyes, keep it from children. "
        "Never tear stuck skin apart: soak it in warm soapy water.",
        source="Regulation (EC) No 1272/2008, Annex III, EUH202; the rest " + _COMMON,
    ),
    "blades": Practice(
        subject="Blades",
        text="Use a fresh blade, cut away from your fingers, and cap the knife when you put it down. Old blades go "
        "into a tin, not loose into the bin.",
        source=_COMMON,
    ),
    "warm air": Practice(
        subject="Warm air",
        text="Warm air on the lowest setting, from an arm's length and always moving: plastic and resin soften, and "
        "a heat gun burns. Never warm a spray can or anything with solvent in it.",
        source=_COMMON,
    ),
    "powder": Practice(
        subject="Pigment powder",
        text="Keep pigment powder out of the air: work over a tray, don't blow it off, wear a dust mask for more than "
        "a pinch, and wipe up damp.",
        source=_COMMON,
    ),
    "curing": Practice(
        subject="Drying is not curing",
        text="Paint that is dry to the touch has not cured. Give acrylic paint 24 hours before solvent or masking "
        "goes over it.",
        source=_COMMON,
    ),
    "brushes": Practice(
        subject="Brushes",
        text="Don't point a brush with your lips or tongue, and keep food and drink away from paint and paint water.",
        source=_COMMON,
    ),
}

# Ends every list of cautions.
ALWAYS = Practice(
    subject="Always",
    text="The label and the safety data sheet come first, then your local rules and trained people. This list "
    "is general advice and not complete; where they say otherwise, follow them and not this page.",
    source="UN GHS, Annex 3, precautionary statement P103; the rest " + _COMMON,
)
