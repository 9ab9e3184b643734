"""Frozen records of what an author wrote, with the place of every value."""
