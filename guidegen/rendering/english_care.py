"""What pages warn of in English: the usual cautions of the bench, in plain words. Each says where it comes from; none replaces a label."""

from __future__ import annotations

CARE: dict[str, str] = {
    "care.isocyanate.subject": "Two-pack paint",
    "care.isocyanate.text": (
        "Two-pack paint hardened with isocyanate is not for use at home. Its mist, which cannot be seen, "
        "causes asthma for life, and no filter mask keeps it out: it needs air-fed breathing gear, a booth "
        "and trained people. Choose another paint."
    ),
    "care.isocyanate.source": "Health and Safety Executive (Great Britain), guidance on spraying isocyanate paints",
    "care.sprays.subject": "Spray cans",
    "care.sprays.text": (
        "Spray outdoors, or where the air is drawn off, with the wind behind you, and wear a mask for paint "
        "mist and vapour. Keep away from flames, sparks and heaters. Never let a can get warmer than 50 °C, "
        "and never pierce or burn one, even when it is empty."
    ),
    "care.sprays.source": "UN GHS, Annex 3, precautionary statements P210, P211, P251, P410+P412",
    "care.airbrush.subject": "Airbrush",
    "care.airbrush.text": (
        "An airbrush puts paint into the air you breathe, water-based paint too. Draw the air off or spray "
        "outdoors, wear a mask with filters for particles and for vapour, and clean the airbrush the same "
        "way."
    ),
    "care.airbrush.source": "common practice, no source",
    "care.warm solvent.subject": "Warm air and solvent",
    "care.warm solvent.text": (
        "Keep the hair dryer and the heat gun away from solvent, from spray cans and from paint that still "
        "smells of either: the vapour can catch fire. Let it dry by itself in moving air."
    ),
    "care.warm solvent.source": "UN GHS, Annex 3, precautionary statement P210",
    "care.solvents.subject": "Solvents",
    "care.solvents.text": (
        "Open a window, and keep flames, sparks and warm air away. Close the bottle at once, wear nitrile "
        "gloves, and take what is left to a collecting point: it does not go down the sink."
    ),
    "care.solvents.source": "UN GHS, Annex 3, precautionary statements P210, P233, P271, P280, P501",
    "care.oily rags.subject": "Oily rags",
    "care.oily rags.text": (
        "Rags and paper with oil paint or a drying oil on them can grow hot and catch fire by themselves. "
        "Spread them out flat to dry outdoors before they go into the bin; never leave them in a heap."
    ),
    "care.oily rags.source": "common practice, no source",
    "care.resin dust.subject": "Resin dust",
    "care.resin dust.text": (
        "Resin dust harms the lungs. Sand and file it wet, wear an FFP3 mask, and wipe the dust up damp "
        "instead of blowing or sweeping."
    ),
    "care.resin dust.source": "common practice, no source",
    "care.uncured.subject": "Uncured resin and epoxy putty",
    "care.uncured.text": (
        "Resin and epoxy putty that have not hardened can make the skin allergic for life. Wear nitrile "
        "gloves, let fresh air in, and wash with soap and water, not with solvent."
    ),
    "care.uncured.source": "common practice, no source",
    "care.lead.subject": "Lead",
    "care.lead.text": (
        "Lead is a poison that stays in the body. Never file or sand it dry, wipe the swarf up wet, wash your"
        " hands before you eat or smoke, and keep figures and scrap away from children."
    ),
    "care.lead.source": "common practice, no source",
    "care.super glue.subject": "Super glue",
    "care.super glue.text": (
        "Super glue bonds skin and eyes in seconds. Let fresh air in, protect your eyes, keep it from "
        "children. Never tear stuck skin apart: soak it in warm soapy water."
    ),
    "care.super glue.source": "Regulation (EC) No 1272/2008, Annex III, EUH202; the rest common practice, no source",
    "care.blades.subject": "Blades",
    "care.blades.text": (
        "Use a fresh blade, cut away from your fingers, and cap the knife when you put it down. Old blades go"
        " into a tin, not loose into the bin."
    ),
    "care.blades.source": "common practice, no source",
    "care.warm air.subject": "Warm air",
    "care.warm air.text": (
        "Warm air on the lowest setting, from an arm’s length and always moving: plastic and resin soften, "
        "and a heat gun burns. Never warm a spray can or anything with solvent in it."
    ),
    "care.warm air.source": "common practice, no source",
    "care.powder.subject": "Pigment powder",
    "care.powder.text": (
        "Keep pigment powder out of the air: work over a tray, don’t blow it off, wear a dust mask for more "
        "than a pinch, and wipe up damp."
    ),
    "care.powder.source": "common practice, no source",
    "care.curing.subject": "Drying is not curing",
    "care.curing.text": (
        "Paint that is dry to the touch has not cured. Give acrylic paint 24 hours before solvent or masking "
        "goes over it."
    ),
    "care.curing.source": "common practice, no source",
    "care.brushes.subject": "Brushes",
    "care.brushes.text": (
        "Don’t point a brush with your lips or tongue, and keep food and drink away from paint and paint "
        "water."
    ),
    "care.brushes.source": "common practice, no source",
    "care.always.subject": "Always",
    "care.always.text": (
        "The label and the safety data sheet come first, then your local rules and trained people. This list "
        "is general advice and not complete; where they say otherwise, follow them and not this page."
    ),
    "care.always.source": "UN GHS, Annex 3, precautionary statement P103; the rest common practice, no source",
    "care.by-author": "the author of the guide",
}
