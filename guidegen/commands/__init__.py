"""One file a command: arguments in, exit code out."""
