"""Files that travel with a guide: JSON, tables, palettes, chapters."""
