"""Puts a site on disk so that it is whole at every moment."""
