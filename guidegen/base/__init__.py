"""What every part may use: places in files, diagnostics, nearest names, units. Imports nothing of ours."""
