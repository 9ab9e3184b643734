"""The words of the bench in English."""

from __future__ import annotations

BENCH: dict[str, str] = {
    "bench.title": "{guide}, at the bench",
    "bench.open": "To the bench",
    "bench.guide": "Back to the guide",
    "bench.step": "Step {n} of {count}",
    "bench.back": "Back",
    "bench.next": "Next",
    "bench.end": "The end",
    "bench.hand": "In hand",
    "bench.opens": "Next",
    "bench.away": "Put away",
    "bench.done": "Done",
    "bench.figures": "Figures painted",
    "bench.figure": "Figure {n}",
    "bench.start": "Dries {length}: start the clock",
    "bench.stop": "Stop the clock",
    "bench.left": "{left} until dry",
    "bench.dry-now": "Dry",
    "bench.notes": "A note for next time",
    "bench.minutes": "It really took, minutes",
    "bench.pot": "Another pot was used",
    "bench.note": "Note",
    "bench.copy": "Copy all notes",
    "bench.copied": "Copied. Paste them into the guide.",
    "bench.text": "All notes, as they go into the guide",
    "bench.took": "Took {minutes} min.",
    "bench.used": "Used {pot}.",
    "bench.resume": "On with step {n}: {step}",
    "bench.stop-here": "Here it may be called done: {stop}.",
}
