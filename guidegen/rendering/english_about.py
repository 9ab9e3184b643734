"""What each kind of page is about, in one sentence in English: for search engines and for links that unfold."""

from __future__ import annotations

ABOUT: dict[str, str] = {
    "about.home": "Painting guides for small figures, step by step, with paints, times, materials and what goes where.",
    "about.guide": "How “{title}” is painted, step by step: paints, times, materials and what goes where.",
    "about.bench": "“{title}” at the bench: one step at a time, with ticks, drying clocks and the pots in hand.",
    "about.moved": "“{title}” has moved to another page.",
    "about.colours": "Every guide by the colours that cover most of its figure: reds, greens, blues, neutrals and metals.",
    "about.paints": "Every paint and house mix of these guides, with its colour, what it is used for and what comes closest.",
    "about.pot": "{title}: the guides that use it, the paints that come closest, and the mixes that it is in.",
    "about.shelf": "Which guides can be painted with the paints on the shelf, and what the others still need.",
    "about.techniques": "The techniques of these guides in plain words, with usual brushes and drying times.",
    "about.cautions": "What to mind with sprays, solvents, dust and blades, and what the warnings on labels say.",
    "about.plans": "Painting projects spread over the evenings there are.",
    "about.plan": "“{title}”, evening by evening: what to paint when, and what to buy for it.",
    "about.shared": "{title}: steps that several guides have in common, and the guides that use them.",
}
