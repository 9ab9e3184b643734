"""A content folder of hard cases for the pages: many steps, one step, endless names, mixes only, other languages, text from
right to left. Everything in it is made up; the Welsh, the German and the Hebrew say what such notes would say.
"""

from __future__ import annotations

from pathlib import Path

from support.content_folders import lay_out

# Sixty letters without a place to break.
ENDLESS = "Regenwasserdichtundseewasserfestimprägniertesfährmannsölzeug"

_FRONT = """» site.yaml
title: The Long Jetty
author: the ferry club

» palette/paints.yaml
ranges:
  Reedbank Acrylics: {size: 17 ml, price: 2.80, thinner: water}
  Sternpost: {size: 150 ml, price: 9.50}
paints:
  - {name: Saltpan White, colour: "#eeeae0", owned: 1}
  - {name: Oilskin Ochre, colour: "#b8862f", owned: 2}
  - {name: Buoy in Sun, colour: "#e3bd55"}
  - {name: Pilot's Jersey, colour: "#2c4a78"}
  - {name: Ferryman's Slate, colour: "#4c5660"}
  - {name: Caulker's Pitch, colour: "#202124"}
  - {name: ENDLESS, colour: "#7b6650"}
  - {name: Slate Undercoat, range: Sternpost, colour: "#6b737a", kind: primer, comes_as: can, hazards: [H222, H229]}
mixes:
  - name: Rained-on slate
    parts: {Ferryman's Slate: 3, Pilot's Jersey: 1}
  - name: The ochre that everybody at the third jetty mixes a little differently every single time
    parts: {Oilskin Ochre: 4, Buoy in Sun: 1, Saltpan White: 1, Ferryman's Slate: a touch}

"""

_PAINTS = (
    "Oilskin Ochre",
    "Pilot's Jersey",
    "Saltpan White",
    "Buoy in Sun",
    "Ferryman's Slate",
    "Caulker's Pitch",
)
_AREAS = ("coat", "hood", "scarf", "boots", "trousers", "pack", "lantern", "face")


def _forty() -> str:
    steps = []
    for n in range(1, 41):
        steps.append(
            f"  - step: Layer {n} of the long watch\n    technique: layer\n"
            f"    area: {_AREAS[n % 8]}\n    paint: {_PAINTS[n % 6]}\n    brush: size {n % 5}\n    thin: {1 + n % 3}:1 water\n"
            f"    each: {30 + n} s\n    dry: {5 + n % 20} min\n"
        )
        if n in (15, 30):
            steps.append(f"  - stop: Fit for the {'quay' if n == 15 else 'lamp'}\n")
    return (
        "» guides/forty/guide.md\n---\ntitle: Forty steps\nfigures: 40\nsteps:\n" + "".join(steps) + "---\n"
    )


_REST = f"""» guides/one/guide.md
---
title: One
steps:
  - step: Paint it
    paint: Oilskin Ochre
    area: coat
    each: 2 min
---
» guides/endless/guide.md
---
title: {ENDLESS} and everything that belongs to it, from the first undercoat to the last careful touch on the hem
summary: {ENDLESS}
tags: [{ENDLESS}, a tag]
figures: 5
tools: [{ENDLESS}]
materials: [{{name: {ENDLESS}, for: {ENDLESS}, amount: a spoonful}}]
steps:
  - step: {ENDLESS}
    technique: base coat
    area: [{ENDLESS}, the hem of the second coat from the left as one stands at the end of the jetty]
    paint: {ENDLESS}
    thin: 2 parts paint to 1 part river water that has stood overnight
    brush: {ENDLESS}
    each: 4 min
    dry: 15 min
    mind: {ENDLESS}
    photo: [{{file: wide.jpg, alt: {ENDLESS}, caption: {ENDLESS}}}]
  - stop: {ENDLESS}
  - step: A second coat, thinner than the first, drawn from the shoulders downwards without ever lifting the brush
    technique: layer
    area: {ENDLESS}
    paint: The ochre that everybody at the third jetty mixes a little differently every single time
    each: 4 min
    dry: 15 min
    photo: [{{file: tall.jpg, alt: A tall photo}}]
---
» guides/endless/wide.jpg = a photo 2000 × 900
» guides/endless/tall.jpg = a photo 600 × 1200
» guides/mixes/guide.md
---
title: Nothing but mixes
figures: 3
steps:
  - step: Ground
    technique: base coat
    area: coat
    paint: Rained-on slate
    each: 2 min
    dry: 10 min
  - step: Light
    technique: layer
    area: coat
    paint: {{Rained-on slate: 2, Saltpan White: 1}}
    each: 2 min
    dry: 10 min
  - step: Edge
    technique: edge highlight
    area: coat
    paint: {{Saltpan White: 3, Buoy in Sun: 1, Pilot's Jersey: a touch}}
    each: 1 min
---
» guides/german/guide.md
---
title: Nachtfährenbegleitmannschaft im wasserabweisenden Ölzeug
summary: Fünf Fährleute, an zwei Abenden bemalt.
language: de
figures: 5
steps:
  - step: Ölzeuggrundierung
    technique: spray undercoat
    paint: Slate Undercoat
    once: 10 min
    dry: 30 min
    mind: kurze Stöße, draußen und mit dem Wind im Rücken
  - step: Wasserlinienschattierung
    technique: wash
    area: coat
    paint: Ferryman's Slate
    each: 2 min
    dry: 40 min
---
Fünf Mann und eine Laterne.
» guides/welsh/guide.md
---
title: Gwylwyr y fferi nos yn eu cotiau gwlyb ger Llangynwyd-yng-Nglan-yr-afon
summary: Deg gwyliwr, wedi'u peintio dros ddwy noson.
language: cy
figures: 10
steps:
  - step: Côt gyntaf yr ŷd
    technique: base coat
    area: coat
    paint: Oilskin Ochre
    each: 3 min
    dry: 15 min
---
» guides/hebrew/guide.md
---
title: שומרי המעבורת במעילי הגשם
summary: חמישה שומרים, בשני ערבים.
language: he
figures: 5
steps:
  - step: שכבת בסיס על המעילים
    technique: base coat
    area: coat
    paint: Oilskin Ochre
    thin: 2:1 water
    brush: size 2
    each: 3 min
    dry: 15 min
    mind: הצווארון, שם כל טעות נראית
    look_for: צהוב אחיד, בלי אפור
    photo: [{{file: coats.jpg, alt: מעיל, caption: המעילים אחרי השכבה הראשונה.}}]
  - stop: אפשר לעצור כאן
  - step: הבהרת הקצוות
    technique: edge highlight
    area: coat
    paint: {{Oilskin Ochre: 1, Buoy in Sun: 1}}
    each: 2 min
    dry: 5 min
---
הם יורדים מהסירה האחרונה בארבע לפנות בוקר.
» guides/hebrew/coats.jpg = a photo 900 × 700
"""

CASES = ("forty", "one", "endless", "mixes", "german", "welsh", "hebrew")


def hard_cases(folder: Path) -> Path:
    """The content folder, laid out as files."""
    return lay_out(folder, _FRONT.replace("ENDLESS", ENDLESS) + _forty() + _REST)
