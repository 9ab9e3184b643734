"""Failures of the tool or of the machine. An author's mistake is a Diagnostic, never an exception."""


class GuidegenError(Exception):
    """What stops a command: printed as one sentence and a help line, exit 2."""

    def __init__(self, message: str, help_line: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.help_line = help_line


class OutputRefusedError(GuidegenError):
    """The output folder holds files that guidegen did not write."""


class RemovesManyError(GuidegenError):
    """A build would take so many pages off a site that it had better be asked for."""


class MachineError(GuidegenError):
    """Disk full, a read-only folder, a missing tool: the machine's trouble."""
