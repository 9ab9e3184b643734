"""A guide as one HTML file."""
