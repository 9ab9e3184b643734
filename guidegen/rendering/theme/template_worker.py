"""Runs in a process of its own: compiles and renders templates of an author's own, within bounds of time and memory.

Requests come over standard input as pickles of ours; answers leave as bytes and JSON, so that whoever reads them runs
nothing. Where the system has no bounds for a process (Windows), there are none here.
"""

from __future__ import annotations

import faulthandler
import json
import math
import os
import pickle
import signal
import sys
import time
import traceback
from pathlib import Path
from types import FrameType
from typing import Any, Self

from guidegen.rendering.theme.broken_templates import ExceededError, Fault, fault_of, unreadable
from guidegen.rendering.theme.template_process import ANSWER, Budget
from guidegen.rendering.theme.templates import Templates
from guidegen.words.language import language_of

try:
    import resource
except ImportError:
    resource = None  # type: ignore[assignment]

# After a template was told to stop, it is stopped by the system after so many seconds more of processor time.
GRACE = 1.0
# Files that may be open: the three pipes, a template that is read, a module that is imported.
MOST_FILES = 64


class Bounds:
    """What each request may cost. `done` are the requests before it."""

    def __init__(self, budget: Budget, trace: int) -> None:
        """From now on memory is counted. `trace` is the file number to leave a trace on when time is up."""
        self.budget, self.done, self._over = budget, 0, False
        self._began = time.process_time()
        if resource is not None:
            for which, most in ((resource.RLIMIT_FSIZE, 0), (resource.RLIMIT_CORE, 0)):
                resource.setrlimit(which, (most, most))
            _lower(resource.RLIMIT_NOFILE, MOST_FILES)
            signal.signal(signal.SIGPROF, self._stop)
            # Also where nothing that Python runs hears of the signal, inside of one long sum.
            faulthandler.register(signal.SIGPROF, file=trace, all_threads=False, chain=True)
        self._addresses = _addresses()

    def __enter__(self) -> Self:
        if resource is not None:
            used = time.process_time()
            together = self.budget.seconds + self.budget.seconds_a_page * self.done - (used - self._began)
            seconds = max(min(self.budget.seconds, together), 0.001)
            _lower(resource.RLIMIT_CPU, math.ceil(used + seconds + GRACE))
            if self._addresses:
                _lower(resource.RLIMIT_AS, self._addresses + self.budget.memory)
            self._over = False
            signal.setitimer(signal.ITIMER_PROF, seconds)
        return self

    def __exit__(self, kind: type[BaseException] | None, *_: object) -> None:
        self.done += 1
        if resource is not None:
            signal.setitimer(signal.ITIMER_PROF, 0)
            for which in (resource.RLIMIT_AS, resource.RLIMIT_CPU):
                _lower(which, resource.RLIM_INFINITY)
        # jinja2 goes on past any error while it tries what it can work out beforehand.
        if self._over and kind is None:
            raise ExceededError("seconds")

    def _stop(self, _number: int, _at: FrameType | None) -> None:
        self._over = True
        raise ExceededError("seconds")

    def short_enough(self, page: bytes) -> bytes:
        """The page. Raises ExceededError where it is larger than a page may be."""
        if len(page) > self.budget.page:
            raise ExceededError("page")
        return page


def _lower(which: int, most: int) -> None:
    """Set a bound for now, within the one for good."""
    hard = resource.getrlimit(which)[1]
    bounds = [one for one in (most, hard) if one != resource.RLIM_INFINITY]
    resource.setrlimit(which, (min(bounds, default=resource.RLIM_INFINITY), hard))


def _addresses() -> int:
    """How many bytes of addresses this process has, 0 where the system does not say."""
    try:
        pages = int(Path("/proc/self/statm").read_text("ascii").split()[0])
    except OSError:
        return 0
    return pages * os.sysconf("SC_PAGE_SIZE")


def main() -> None:
    """Answer one request after another until the pipe ends."""
    # Ctrl-C goes to the whole group; the parent ends this process when it is ready to.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    answers, trace = os.fdopen(os.dup(1), "wb"), os.dup(2)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for number in (1, 2):
        os.dup2(nowhere, number)
    if os.name == "posix":
        os.set_blocking(trace, False)
    authors, language, budget = pickle.load(sys.stdin.buffer)  # noqa: S301  from our own parent
    templates = Templates(language_of(language), authors)
    bounds = Bounds(budget, trace)
    try:
        while True:
            request = pickle.load(sys.stdin.buffer)  # noqa: S301
            good, data = _answer(templates, bounds, *request)
            answers.write(ANSWER.pack(good, len(data)) + data)
            answers.flush()
    except (EOFError, BrokenPipeError):
        # Nobody is there any more; nothing is left to write out.
        os._exit(0)


def _answer(templates: Templates, bounds: Bounds, kind: str, name: str, *more: Any) -> tuple[bool, bytes]:
    try:
        with bounds:
            if kind == "render":
                return True, bounds.short_enough(templates.render_here(name, *more))
            template = templates.load_here(name)
            return True, str(template.get_corresponding_lineno(*more)).encode() if more else b""
    except BaseException as error:  # noqa: BLE001  a template can run into anything that Python can
        if kind == "render":
            fault = fault_of(error, name, templates, bounds.budget)
        else:
            fault = unreadable(error, name, bounds.budget)
        if fault is None:
            trace = "".join(traceback.format_exception(error))
            fault = Fault(file="", line=1, words=trace, exceeded=False)
        return False, json.dumps(fault).encode()
