"""YAML texts as trees of what the author typed, each piece with its place."""
