"""Values in, pages and exports out, as text."""
