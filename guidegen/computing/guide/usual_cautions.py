"""The usual cautions of the bench by key. What each says, and where it comes from, stands in the tables of the languages."""

from __future__ import annotations

# In the order in which they are shown where two begin at the same step: the gravest first.
PRACTICE = (
    "isocyanate", "sprays", "airbrush", "warm solvent", "solvents", "oily rags", "resin dust", "uncured",
    "lead", "super glue", "blades", "warm air", "powder", "curing", "brushes",
)  # fmt: skip

# Ends every list of cautions.
ALWAYS = "always"
