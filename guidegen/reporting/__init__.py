"""Diagnostics as text for people and as data for tools."""
