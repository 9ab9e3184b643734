"""The lock: one build at a time, told at once, and gone with whoever held it."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from support.made_sites import NEW, OLD, files_in, put

from guidegen.base.errors import MachineError
from guidegen.writing import lock
from guidegen.writing.lock import locked, shared, taken_alone

HOLD = """
import os, sys
from pathlib import Path
from guidegen.writing.lock import locked
with locked(Path(sys.argv[1])):
    if "fork" in sys.argv and os.fork() == 0:
        # A worker that outlives the build; it lets go of the lock before it gets here.
        os.write(1, b"held\\n")
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        os.read(0, 1)
        os._exit(0)
    if "fork" not in sys.argv:
        print("held", flush=True)
    os.read(0, 1)
"""


def holder(out: Path, *more: str) -> subprocess.Popen[bytes]:
    process = subprocess.Popen(
        [sys.executable, "-c", HOLD, str(out), *more], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    )
    assert process.stdout is not None
    assert process.stdout.readline() == b"held\n"
    return process


def end(process: subprocess.Popen[bytes]) -> None:
    process.communicate(b"x")


def test_another_build_is_told_at_once_and_changes_nothing(tmp_path: Path):
    out = tmp_path / "site"
    put(OLD, out)
    process = holder(out)
    try:
        with pytest.raises(MachineError) as told:
            put(NEW, out)
        assert told.value.message == f"Another guidegen is writing to “{out}” just now."
        assert told.value.help_line == "Wait until it is done, or build elsewhere with --out."
        assert files_in(out) == OLD
    finally:
        end(process)
    put(NEW, out)
    assert files_in(out) == NEW


@pytest.mark.skipif(not hasattr(os, "fork"), reason="no processes are forked here")
@pytest.mark.parametrize("more", [(), ("fork",)])
def test_a_kill_leaves_no_lock(tmp_path: Path, more: tuple[str, ...]):
    process = holder(tmp_path, *more)
    process.send_signal(signal.SIGKILL)
    process.wait()
    try:
        with locked(tmp_path):
            pass
    finally:
        # The worker reads on until its input ends.
        process.communicate()


def test_nothing_lies_in_the_folder(tmp_path: Path):
    with locked(tmp_path):
        pass
    assert list(tmp_path.iterdir()) == []


def test_one_thread_keeps_another_out(tmp_path: Path):
    with locked(tmp_path), pytest.raises(MachineError), locked(tmp_path):
        pass
    with locked(tmp_path):
        pass


def test_a_disk_that_does_not_lock_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    import errno
    import fcntl
    import stat

    flock = fcntl.flock

    def only_files(number: int, how: int) -> None:
        if stat.S_ISDIR(os.fstat(number).st_mode):
            raise OSError(errno.EBADF, "not for folders")
        flock(number, how)

    monkeypatch.setattr(fcntl, "flock", only_files)
    out = tmp_path / "site"
    put(OLD, out)
    with locked(out), pytest.raises(MachineError, match="Another guidegen"):
        put(NEW, out)
    put(NEW, out)
    assert {path for path in files_in(out) if path not in NEW} == {lock.LOCK}


def test_a_folder_held_together_is_nobodys_alone(tmp_path: Path):
    with shared(tmp_path), shared(tmp_path), taken_alone(tmp_path) as alone:
        assert not alone
    with taken_alone(tmp_path) as alone:
        assert alone
