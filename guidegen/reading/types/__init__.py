"""Typed values and tables of keys: what may stand after a key, and what is said where it cannot."""
