"""The author's files: finding them, and reading each kind into records."""
