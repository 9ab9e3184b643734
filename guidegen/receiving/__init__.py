"""Taking a member's material into the archive of a club."""
