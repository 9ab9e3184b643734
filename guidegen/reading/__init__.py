"""Files' text in, records and diagnostics out."""
