"""A guide's Markdown: divided among its steps and made into safe HTML."""
