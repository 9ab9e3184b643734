"""guidegen publishes illustrated painting guides as a checked static site."""

__version__ = "0.1.0"
