"""Paint lists from elsewhere, and palettes as other programs read them."""
