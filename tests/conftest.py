"""What holds for every test: the same examples on each run, no clock that decides, and nothing of the user's own around it."""

from __future__ import annotations

import gc
import os
import signal
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import HealthCheck, settings

if TYPE_CHECKING:
    from xdist.scheduler import LoadScopeScheduling

settings.register_profile(
    "guidegen", deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("guidegen")

# What a worker takes with all libraries loaded, a browser of its own, and the commands it starts: measured 1 GB.
WORKERS_MEMORY = 1_500_000_000
# The longest group of tests, which one worker runs, is no shorter with more of them.
MOST_WORKERS = 12
# Folders with the longest files, which are begun first, so that no worker is left alone with one at the end. Those of
# the browser stand together: its thread ends with the last of them.
BEGUN_FIRST = (
    "tests/browser/",
    "tests/site/",
    "tests/laws/",
    "tests/abuse/",
    "tests/commands/",
    "tests/imaging/",
)
# Where Linux tells how much memory may be had, by the machine and by the container.
MACHINES_MEMORY = Path("/proc/meminfo")
CONTAINERS_MEMORY = (
    Path("/sys/fs/cgroup/memory.max"),
    Path("/sys/fs/cgroup/memory/memory.limit_in_bytes"),
)

# What a user may have set, and what programs and libraries would then print in another way.
OF_THE_TERMINAL = ("CLICOLOR_FORCE", "COLUMNS", "FORCE_COLOR", "GUIDEGEN_TRACE", "LINES", "NO_COLOR")


@pytest.fixture(scope="session", autouse=True)
def _no_users_own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """Neither the user's cache, which another run may write to just now, nor the user's terminal.

    A shell lets what it runs in the background not hear Ctrl-C's signal, and commands that tests start would inherit that.
    """
    heard = signal.signal(signal.SIGINT, signal.default_int_handler)
    if heard is not signal.SIG_IGN:
        signal.signal(signal.SIGINT, heard)
    browsers = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "ms-playwright"
    with pytest.MonkeyPatch.context() as patched:
        if browsers.is_dir() and "PLAYWRIGHT_BROWSERS_PATH" not in os.environ:
            patched.setenv("PLAYWRIGHT_BROWSERS_PATH", str(browsers))
        patched.setenv("XDG_CACHE_HOME", str(tmp_path_factory.mktemp("caches")))
        for name in OF_THE_TERMINAL:
            patched.delenv(name, raising=False)
        yield


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_auto_num_workers() -> int | None:
    """How many workers `-n auto` starts: one for each core, as far as memory goes. None leaves it to pytest-xdist."""
    if os.environ.get("PYTEST_XDIST_AUTO_NUM_WORKERS"):
        return None
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    memory = memory_to_be_had()
    held = MOST_WORKERS if memory is None else max(1, memory // WORKERS_MEMORY)
    return min(cores, held, MOST_WORKERS)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> LoadScopeScheduling:
    """One worker runs a whole file; pytest-xdist's own `--dist loadfile` begins with the files of most tests, not the longest."""
    from xdist.scheduler import LoadScopeScheduling

    class ByFile(LoadScopeScheduling):
        def _split_scope(self, nodeid: str) -> str:
            return nodeid.partition("::")[0]

    config.option.loadscopereorder = False
    return ByFile(config, log)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Put the folders to begin with first; within each, files stay in their order."""

    def place(item: pytest.Item) -> int:
        within = (n for n, folder in enumerate(BEGUN_FIRST) if item.nodeid.startswith(folder))
        return next(within, len(BEGUN_FIRST))

    items.sort(key=place)


def pytest_collection_finish() -> None:
    """Thousands of tests stay until the end, so the collector of garbage need not go through them again and again."""
    gc.collect()
    gc.freeze()


def memory_to_be_had() -> int | None:
    """In bytes; None where nobody says."""
    lines = MACHINES_MEMORY.read_text("ascii").splitlines() if MACHINES_MEMORY.exists() else []
    machines = [int(line.split()[1]) * 1024 for line in lines if line.startswith("MemAvailable:")]
    limits = [file.read_text("ascii").strip() for file in CONTAINERS_MEMORY if file.exists()]
    # A container without a limit says “max”.
    return min([*machines, *(int(limit) for limit in limits if limit.isdecimal())], default=None)
