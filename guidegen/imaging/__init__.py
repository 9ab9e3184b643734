"""Photos in, upright sRGB pictures without metadata out."""
