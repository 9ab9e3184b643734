"""Pure functions from records to colours, times and amounts: no files, no clock, no randomness."""
