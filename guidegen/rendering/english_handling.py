"""The words in English for what a reader turns, opens, times and prints."""

from __future__ import annotations

HANDLING: dict[str, str] = {
    # Photos that open large
    "photo.large": "The photo, large",
    "photo.before": "Photo before",
    "photo.after": "Photo after",
    "photo.close": "Close",
    # From step to step
    "steps.list": "All steps",
    "steps.keys": "The arrow keys ← and → lead from step to step.",
    # The weather for spraying
    "spray.air-unread": "The air is to be between {coldest} and {hottest} °C.",
    "spray.figure-unread": "The figure is to be between {coldest} and {hottest} °C.",
    "spray.humidity-unread": "The humidity is to be between 1 and 100%.",
    "spray.near-dew": "The figure has to be at least {limit} °C above the dew point, or damp settles on it.",
    "spray.too-damp": "Above {limit}% humidity a matt varnish frosts.",
    "spray.too-cold": "Below {limit} °C the paint spits and dries badly.",
    "spray.too-hot": "Above {limit} °C the paint dries in the air and lands as dust.",
    "spray.may-frost": "Above {limit}% humidity a matt varnish may frost: try it on a scrap first.",
    "spray.all-well": "The figure is well above the dew point, the air neither too damp, too cold nor too hot.",
    # The bench
    "bench.keys": "The arrow keys ← and → turn the steps; so does a foot pedal that turns pages.",
    "bench.so-far": "{done} of {count} steps done",
    "bench.is-done": "Step {n} is done. {done} of {count} steps done.",
    "bench.not-done": "Step {n} is open again. {done} of {count} steps done.",
    "bench.drying": "What is drying",
    "bench.started": "The clock for “{step}” runs: {length}.",
    "bench.stopped": "The clock for “{step}” is stopped.",
    "bench.rings": "“{step}” is dry.",
    "bench.heard": "Heard",
    "bench.begin-again": "Begin again: clear ticks, figures and clocks",
    "bench.drop-notes": "Throw away the notes",
    "bench.undo": "Undo",
    "bench.cleared": "Cleared.",
    "bench.undone": "As it was.",
    "bench.no-memory": "This browser keeps nothing: what is ticked here is forgotten when the page is closed.",
    "bench.thin": "thinned {thin}",
    "bench.with": "with {brush}",
    "bench.figures-painted": "{done} of {count}",
    # The bench on paper
    "sheet.step": "Step",
    "sheet.paint": "Paint, dab and thinning",
    "sheet.brush": "Brush",
    "sheet.dry": "Dry",
    "sheet.stop": "Here it may be called done: {stop}",
    "sheet.care": "Take care",
    # What a plan's guides ask for
    "plan.per-guide": "Tools, materials and what to take care with, guide by guide",
}
