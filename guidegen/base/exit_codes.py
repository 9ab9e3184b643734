"""What a command ends with, beside 0 where all is well."""

# There is a mistake in the content, or what was asked for is not there.
FAULTS = 1
# Misused options (click's own number too), a refused folder, the machine's trouble, a crash of ours.
FAILED = 2
# Ctrl-C or SIGTERM: what a shell reports of it, 128 and the number of SIGINT.
STOPPED = 130
