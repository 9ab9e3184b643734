"""Pages about the whole archive: home, paints, shelf, search."""
