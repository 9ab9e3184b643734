"""Rules over records: what an author should be told."""
