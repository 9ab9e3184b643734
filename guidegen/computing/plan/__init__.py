"""Everything computed of a plan: its schedule over sittings, and what would mend it."""
