"""The process that compiles and renders an author's own templates: started when it is first needed, and never trusted."""

from __future__ import annotations

import json
import pickle
import re
import signal
import struct
import subprocess
import sys
import weakref
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import IO, NamedTuple, cast

from guidegen.rendering.theme.template_files import FOLDER


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """What templates of an author's own may cost, where the system can bound a process.

    `seconds` of processor time for each page; for all pages together as much, and `seconds_a_page` for each that is
    made. `memory` in bytes over what the process has before the first page; `page` in bytes, for a page.
    """

    seconds: float = 10.0
    seconds_a_page: float = 0.25
    memory: int = 1_000_000_000
    page: int = 50_000_000


# Read whenever a process starts.
BUDGET = Budget()

# An answer's beginning: whether the request went well, and the number of bytes that follow.
ANSWER = struct.Struct(">?Q")

# How the system ends a process that is out of processor time.
_OUT_OF_TIME = {-getattr(signal, "SIGXCPU", 0)} - {0}
_NO_REASON = "the process that makes its pages did not survive it"

_RUN = "import sys; sys.path[:] = sys.argv[1:]; from guidegen.rendering.theme.template_worker import main; main()"
# A line of the trace that the process leaves when its time is up, with the line of the compiled template.
_TRACED = re.compile(rf'File "{FOLDER}/([^"]+)", line (\d+)')


def exceeded_words(what: str, budget: Budget) -> str:
    """What is said of a template that costs more than the budget has under a name."""
    if what == "memory":
        return f"it takes more than {budget.memory / 1e6:,.0f} MB of memory"
    if what == "page":
        return f"the page would be larger than {budget.page / 1e6:,.0f} MB"
    return (
        f"it takes too long; a page may take {budget.seconds:g} s of processor time, and all of them together "
        f"{budget.seconds:g} s and {budget.seconds_a_page:g} s for each"
    )


class BrokenTemplateError(Exception):
    """A template of the author's own cannot be used. `file` is relative to content.

    `exceeded` where it cost more than it may: then no others are looked at.
    """

    def __init__(self, file: str, line: int, words: str, *, exceeded: bool = False) -> None:
        super().__init__(f"{file}:{line}: {words}")
        self.file, self.line, self.words, self.exceeded = file, line, words, exceeded


class FailedProcessError(Exception):
    """The process met a fault that is not the author's; its traceback is the message."""


class EndedProcessError(Exception):
    """The process came to its end over a request. `template` is where, '' where that is not known."""

    def __init__(self, template: str, line: int, words: str) -> None:
        super().__init__(template, line, words)
        self.template, self.line, self.words = template, line, words


class _Child(NamedTuple):
    process: subprocess.Popen[bytes]
    requests: IO[bytes]
    answers: IO[bytes]
    trace: IO[bytes]


class TemplateProcess:
    """One child process, for the templates of one folder in one language."""

    def __init__(self, authors: Path, language: str) -> None:
        """Nothing is started yet."""
        self._made_for = authors, language
        self._child: _Child | None = None

    def render(self, name: str, values: Mapping[str, object]) -> bytes:
        """A page. Raises BrokenTemplateError, EndedProcessError or FailedProcessError."""
        return self._ask("render", name, dict(values))

    def load(self, name: str) -> None:
        """Compile a template. Raises as `render` does."""
        self._ask("load", name)

    def end(self) -> None:
        """Kill the process, if there is one."""
        if self._child is not None:
            self._finalizer()
            self._child = None

    def _ask(self, *request: object) -> bytes:
        child = self._child or self._started()
        answer = self._answer(child, request)
        if answer is None:
            raise self._last_words(child)
        good, data = answer
        if good:
            return data
        told = json.loads(data)
        if told["exceeded"]:
            self.end()
        if not told["file"]:
            raise FailedProcessError(told["words"])
        raise BrokenTemplateError(**told)

    def _answer(self, child: _Child, request: tuple[object, ...]) -> tuple[bool, bytes] | None:
        """None where the process ended. Whatever stops the waiting, an interrupt too, kills the process."""
        try:
            with suppress(BrokenPipeError):
                pickle.dump(request, child.requests)
                child.requests.flush()
            head = child.answers.read(ANSWER.size)
            if len(head) == ANSWER.size:
                good, length = ANSWER.unpack(head)
                data = child.answers.read(length)
                if len(data) == length:
                    return good, data
        except BaseException:
            self.end()
            raise
        return None

    def _last_words(self, child: _Child) -> EndedProcessError:
        """Which template and line the process ended at, as far as it told, and why."""
        child.process.kill()
        traced = _TRACED.search(child.trace.read().decode(errors="replace"))
        words = exceeded_words("seconds", BUDGET) if child.process.wait() in _OUT_OF_TIME else _NO_REASON
        self.end()
        if traced is None:
            return EndedProcessError("", 1, words)
        # Only whoever compiles the template again knows which of its lines that is.
        answer = self._answer(self._started(), ("line", traced[1], int(traced[2])))
        self.end()
        return EndedProcessError(traced[1], int(answer[1]) if answer is not None and answer[0] else 1, words)

    def _started(self) -> _Child:
        # Isolated: neither the environment nor the current folder says what is imported, but our own path.
        options = ["-I", "-X", f"utf8={sys.flags.utf8_mode}"]
        process = subprocess.Popen(
            [sys.executable, *options, "-c", _RUN, *sys.path],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        self._finalizer = weakref.finalize(self, _end, process)
        pipes = (process.stdin, process.stdout, process.stderr)
        self._child = _Child(process, *(cast("IO[bytes]", pipe) for pipe in pipes))
        with suppress(BrokenPipeError):
            pickle.dump((*self._made_for, BUDGET), self._child.requests)
        return self._child


def _end(process: subprocess.Popen[bytes]) -> None:
    process.kill()
    process.wait()
    for pipe in (process.stdin, process.stdout, process.stderr):
        if pipe is not None:
            with suppress(BrokenPipeError):
                pipe.close()
