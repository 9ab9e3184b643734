"""The preview: watch, build again, serve on this machine, reload."""
