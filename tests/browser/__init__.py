"""A package, so that fixtures with its scope end after its last test."""
