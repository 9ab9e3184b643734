"""A guide's own pages: the guide, its bench, its drawings."""
