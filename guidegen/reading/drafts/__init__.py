"""Drafts of guides, out of what a painter has: captions, notes, tables, the bench's log, photos."""
