"""Plans: page, calendar, text and data."""
