"""Runs guidegen on one hostile content folder after another, in a process that is watched and bounded.

What may come of it is a site or diagnostics. Told as a failure are a traceback, any exit but 0 and 1, more than ten
seconds of work (on a slow machine, as much work as that is on a usual one), more than 1 GiB of memory over that of the
idle program, words on the terminal that are not ours, a write outside of the site and the cache, a process started that
is not the one for templates, and a connection opened.
"""

from __future__ import annotations

import contextlib
import gc
import io
import json
import os
import resource
import shutil
import subprocess
import sys
import threading
import time
import traceback
from collections.abc import Sequence
from pathlib import Path
from typing import Any, NamedTuple

# What one input may cost, by the promise: seconds of work, and memory over that of the idle program.
SECONDS = 10
MEMORY = 1 << 30
# The same work where a core is slow or shared: as long as it takes to count so often to a million just then.
MILLIONS = 100
# A busy machine gives a process only part of its time; past this it is stopped whatever it does.
STOPPED_AFTER = 600
# Each thread of a library reserves a stack and a heap of addresses that it never uses. There are a few for each core.
ADDRESSES_OF_THREADS = 1 << 29
CORES = 2

# The guidegen that is tried.
ON_THE_PATH = str(Path(__file__).resolve().parents[2])

_WRITES = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC | os.O_APPEND
_PLACED = {
    "os.mkdir": 1, "os.rename": 2, "os.remove": 1, "os.rmdir": 1, "os.symlink": 2, "os.link": 2,
    "os.truncate": 1, "os.chmod": 1, "os.chown": 1, "os.utime": 1,
}  # fmt: skip
_NEVER = (
    "subprocess.Popen",
    "os.system",
    "os.exec",
    "os.posix_spawn",
    "os.spawn",
    "socket.connect",
    "socket.bind",
)


class Outcome(NamedTuple):
    """What became of one input: the exit code, and what went wrong if anything did."""

    exit: int
    failures: tuple[str, ...]
    said: str
    seconds: float
    peak_mb: float


class Ordeal:
    """A worker process and its scratch folder: content, site, cache, home, and a current folder that stays empty."""

    def __init__(self, scratch: Path) -> None:
        """The worker starts with the first input."""
        self.scratch = scratch
        for name in ("content", "elsewhere", "home", "tmp"):
            (scratch / name).mkdir(parents=True, exist_ok=True)
        self._worker: subprocess.Popen[str] | None = None

    @property
    def content(self) -> Path:
        """Where the input lies."""
        return self.scratch / "content"

    def cleared(self) -> Path:
        """The content folder, empty."""
        shutil.rmtree(self.content, ignore_errors=True)
        self.content.mkdir()
        return self.content

    def put(self, command: Sequence[str]) -> Outcome:
        """Run a command on the content as it lies there."""
        worker = self._worker or self._started()
        assert worker.stdin is not None
        assert worker.stdout is not None
        stopped = threading.Timer(STOPPED_AFTER, worker.kill)
        began = time.monotonic()
        with contextlib.suppress(BrokenPipeError):
            worker.stdin.write(json.dumps(list(command)) + "\n")
            worker.stdin.flush()
        stopped.start()
        answer = worker.stdout.readline()
        stopped.cancel()
        if answer:
            told = json.loads(answer)
            return Outcome(**told | {"failures": tuple(told["failures"])})
        self.close()
        seconds = time.monotonic() - began
        how = "no end" if seconds >= STOPPED_AFTER - 1 else f"the process died ({worker.wait()})"
        return Outcome(-1, (how,), self._noise().read_text("utf-8", "replace")[-2000:], seconds, 0.0)

    def close(self) -> None:
        """End the worker."""
        worker, self._worker = self._worker, None
        if worker is not None and worker.stdin is not None and worker.stdout is not None:
            with contextlib.suppress(BrokenPipeError):
                worker.stdin.close()
            worker.wait()
            worker.stdout.close()

    def _noise(self) -> Path:
        return self.scratch / "noise"

    def _started(self) -> subprocess.Popen[str]:
        env = {
            **os.environ,
            "HOME": str(self.scratch / "home"),
            "XDG_CACHE_HOME": str(self.scratch / "home" / ".cache"),
            "TMPDIR": str(self.scratch / "tmp"),
            "PYTHONPATH": ON_THE_PATH,
            "PYTHONHASHSEED": "0",
            # Else the interpreter's own compiled modules would be writes elsewhere.
            "PYTHONDONTWRITEBYTECODE": "1",
        }
        with self._noise().open("wb") as noise:
            self._worker = subprocess.Popen(
                [sys.executable, str(Path(__file__).resolve()), str(self.scratch)],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=noise,
                text=True,
                cwd=self.scratch / "elsewhere",
                env=env,
            )
        return self._worker


class _Watch:
    """Hears of everything that Python opens, moves, starts and connects to."""

    def __init__(self, allowed: Sequence[Path]) -> None:
        self.allowed = tuple(f"{os.path.realpath(path)}{os.sep}" for path in allowed)
        self.on = False
        self.remedies = ""
        self.seen: list[str] = []

    def __call__(self, event: str, args: tuple[Any, ...]) -> None:
        if not self.on:
            return
        if event == "open":
            path, _, flags = args
            if isinstance(flags, int) and flags & _WRITES:
                self._placed(path)
        elif event in _PLACED:
            for path in args[: _PLACED[event]]:
                self._placed(path)
        elif event in _NEVER and not _for_templates(event, args):
            self.seen.append(f"{event} {args[:2]}"[:200])

    def _placed(self, path: object) -> None:
        if isinstance(path, int) or path == "/dev/null":
            return
        typed = Path(os.fsdecode(path))  # type: ignore[arg-type]
        # The folder without links, but not the last name: a link may be replaced.
        whole = f"{os.path.realpath(typed.parent)}{os.sep}{typed.name}{os.sep}"
        remedies = self.remedies and whole.startswith(self.remedies)
        if not remedies and not whole.startswith(self.allowed):
            self.seen.append(f"wrote {os.fsdecode(path)!r}")  # type: ignore[arg-type]


def _for_templates(event: str, args: tuple[Any, ...]) -> bool:
    """Whether a process is started that is there for templates of an author's own, and bounded by itself."""
    program = "from guidegen.rendering.theme.template_worker import main; main()"
    return event == "subprocess.Popen" and args[0] == sys.executable and args[1][5].endswith(program)


def _status(field: str) -> int:
    """A figure of this process in bytes (Linux)."""
    for line in Path("/proc/self/status").read_text("ascii").splitlines():
        if line.startswith(f"{field}:"):
            return int(line.split()[1]) * 1024
    return 0


def _idle() -> tuple[int, int]:
    """Import what a build needs, and say how many addresses and how much memory that takes."""
    import icalendar  # noqa: F401
    import jinja2  # noqa: F401
    import numpy as np  # noqa: F401
    import pillow_heif  # noqa: F401
    from PIL import ImageCms  # noqa: F401

    import guidegen.building.build
    import guidegen.commands.build
    import guidegen.commands.check  # noqa: F401
    from guidegen.rendering.theme import template_process

    # Little to wait for, with all else that runs on the machine.
    template_process.BUDGET = template_process.Budget(seconds=2.0)
    # What stays for good is not gone through again for each input.
    gc.collect()
    gc.freeze()
    return _status("VmSize"), _status("VmRSS")


def _of_workers() -> tuple[float, int]:
    """The processor time of this process and of its workers that have ended, and the memory of the largest of those."""
    ended = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + ended.ru_utime + ended.ru_stime, ended.ru_maxrss * 1024


def _allowed() -> float:
    """The seconds of work that an input may take, by what this machine does in them just now."""
    began, count = time.process_time(), 0
    while count < 10_000_000:
        count += 1
    return max(SECONDS, (time.process_time() - began) / 10 * MILLIONS)


def _keep_to_few_cores() -> None:
    """Run on a few of the cores, others in each worker, so that what threads reserve does not grow with the machine."""
    cores = sorted(os.sched_getaffinity(0))
    first = os.getpid() % len(cores)
    os.sched_setaffinity(0, (cores[first:] + cores[:first])[:CORES])


def _run(command: list[str]) -> tuple[int, str, str]:
    """The exit code, what was said, and the traceback if there was one."""
    import click

    from guidegen.base.errors import GuidegenError
    from guidegen.cli import guidegen

    said = io.TextIOWrapper(io.BytesIO(), encoding="utf-8", write_through=True)
    code, trace = 0, ""
    with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
        try:
            guidegen.main(command, prog_name="guidegen", standalone_mode=False)
        except SystemExit as end:
            code = end.code if isinstance(end.code, int) else 1
        except (GuidegenError, click.ClickException) as failure:
            code = 2
            trace = f"exit 2: {failure}"
        except BaseException:  # noqa: BLE001  whatever it is, it is what is looked for
            code, trace = 2, traceback.format_exc()
    buffer = said.buffer
    assert isinstance(buffer, io.BytesIO)
    return code, buffer.getvalue().decode(), trace


def _serve(scratch: Path) -> None:
    watch = _Watch([scratch / "site", scratch / "cache", scratch / "home", scratch / "tmp"])
    sys.addaudithook(watch)
    _keep_to_few_cores()
    addresses, memory = _idle()
    bound = addresses + MEMORY + ADDRESSES_OF_THREADS
    resource.setrlimit(resource.RLIMIT_AS, (bound, bound))
    answers = os.fdopen(os.dup(1), "w", encoding="utf-8")
    os.dup2(2, 1)
    noise = scratch / "noise"
    for line in sys.stdin:
        command = json.loads(line)
        heard = noise.stat().st_size
        Path("/proc/self/clear_refs").write_text("5", "ascii")  # the peak begins anew
        watch.seen.clear()
        watch.remedies = f"{scratch / 'content'}{os.sep}" if "--fix" in command else ""
        (began, largest), watch.on = _of_workers(), True
        code, said, trace = _run(command)
        (ended, larger), watch.on = _of_workers(), False
        seconds = ended - began
        # Of its workers only the largest so far is known, so it is this input's if it is larger than any before.
        peak = max(_status("VmHWM") - memory, larger - memory if larger > largest else 0, 0)
        failures = [*dict.fromkeys(watch.seen)][:3]
        if trace or code not in (0, 1):
            failures.append(trace[-1500:] or f"exit {code}")
        if seconds > SECONDS and seconds > _allowed():
            failures.append(f"{seconds:.1f} s")
        if peak > MEMORY:
            failures.append(f"{peak / 1e6:.0f} MB")
        if noise.stat().st_size > heard:
            failures.append("noise: " + noise.read_bytes()[heard : heard + 300].decode("utf-8", "replace"))
        failures += _told_badly(command, code, said)
        if any((scratch / "elsewhere").iterdir()):
            failures.append("the current folder was written to")
        # An answer takes no lone surrogates along.
        words = json.dumps(
            {
                "exit": code,
                "failures": failures,
                "said": said[-1500:],
                "seconds": round(seconds, 3),
                "peak_mb": round(peak / 1e6, 1),
            }
        )
        answers.write(words + "\n")
        answers.flush()


def _told_badly(command: list[str], code: int, said: str) -> list[str]:
    """Diagnostics that no other program can read, and a site that is not there although all went well."""
    out = Path(command[command.index("--out") + 1]) if "--out" in command else None
    if out is not None and code == 0 and not (out / "index.html").is_file():
        return ["no site"]
    form = command[command.index("--format") + 1] if "--format" in command else ""
    if form in {"json", "sarif"} and code in (0, 1):
        try:
            json.loads(said)
        except ValueError as error:
            return [f"no JSON: {error}"]
    return [] if said.strip() or form == "line" else ["nothing was said"]


if __name__ == "__main__":
    _serve(Path(sys.argv[1]))
