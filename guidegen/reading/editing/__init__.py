"""Help for writing: fixes put into files, and schemas for editors."""
