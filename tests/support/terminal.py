"""Running guidegen at a terminal of its own, and typing into it."""

from __future__ import annotations

import os
import pty
import select
import sys
import time
from pathlib import Path

from support.waiting import PATIENCE


class Terminal:
    """A running command at the other end."""

    def __init__(self, *arguments: str, folder: Path) -> None:
        """Start `guidegen` with these arguments in a folder."""
        self._bytes = b""
        self._seen = 0
        self._child, self._end = pty.fork()
        if self._child == 0:
            os.chdir(folder)
            os.environ.update(TERM="dumb", INPUTRC="/dev/null", GUIDEGEN_TRACE="1")
            os.execv(sys.executable, [sys.executable, "-m", "guidegen", *arguments])

    def wait_for(self, words: str) -> None:
        """Read until these words have been shown since the last ones that were waited for."""
        begun = time.monotonic()
        while words not in self.shown[self._seen :]:
            assert self._read(), f"it ended without “{words}”:\n{self.shown}"
            assert time.monotonic() < begun + PATIENCE, f"nothing of “{words}”:\n{self.shown}"
        self._seen = self.shown.index(words, self._seen) + len(words)

    def type(self, keys: str) -> None:
        """Press keys, as a terminal sends them: a carriage return for Enter, a tab for the Tab key."""
        os.write(self._end, keys.encode())

    def answer(self, question: str, keys: str) -> None:
        """Wait for a question and answer it with Enter at the end."""
        self.wait_for(question)
        self.type(f"{keys}\r")

    def finish(self) -> int:
        """Read to the end; the exit code."""
        while self._read():
            pass
        os.close(self._end)
        return os.waitstatus_to_exitcode(os.waitpid(self._child, 0)[1])

    def stop(self, keys: str) -> int:
        """Press keys that end it, and read to the end; the exit code.

        A signal that comes in the moment before a line is waited for is only seen at the next key, by Python's own
        way of reading lines, so they are pressed again after a while.
        """
        begun = time.monotonic()
        while time.monotonic() < begun + PATIENCE:
            self.type(keys)
            ready, _, _ = select.select([self._end], [], [], 1.0)
            while ready:
                if not self._read():
                    return self.finish()
                ready, _, _ = select.select([self._end], [], [], 1.0)
        raise AssertionError(f"it does not stop:\n{self.shown}")

    @property
    def shown(self) -> str:
        """All that it has shown so far."""
        return self._bytes.decode(errors="replace")

    def _read(self) -> bool:
        ready, _, _ = select.select([self._end], [], [], PATIENCE)
        assert ready, f"it shows nothing more:\n{self.shown}"
        try:
            data = os.read(self._end, 65_536)
        except OSError:  # Linux says so once the other end is closed
            return False
        self._bytes += data
        return bool(data)
