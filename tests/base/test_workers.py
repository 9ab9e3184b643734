"""Worker processes: results in order whatever the number, errors as they were, the dead named, and nobody left behind."""

from __future__ import annotations

import faulthandler
import multiprocessing
import os
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from typing import Any

import pytest
from support.waiting import PATIENCE

from guidegen.base.activity import activity_notes, busy_with
from guidegen.base.errors import MachineError
from guidegen.base.workers import LATER, Ask, LostWorkerError, Parent, WorkerTraceError, in_workers, meanwhile
from guidegen.rendering.theme.template_process import BrokenTemplateError

pytestmark = pytest.mark.skipif(os.name != "posix", reason="workers are ended by POSIX signals here")


def squared(number: int, _ask: Ask) -> int:
    return number * number


@pytest.fixture(autouse=True)
def _forked(monkeypatch: pytest.MonkeyPatch) -> None:
    """A thread that another test has left, as Playwright's, does not decide how workers start here."""
    monkeypatch.setattr("guidegen.base.workers.can_fork", lambda: sys.platform == "linux")


@pytest.fixture
def beside(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Another thread at work, so that workers are processes of their own from the start."""
    monkeypatch.undo()
    over = threading.Event()
    other = threading.Thread(target=over.wait)
    other.start()
    yield
    over.set()
    other.join()


@pytest.mark.parametrize("cores", [1, 2, 8])
def test_results_come_in_order(cores: int):
    assert list(in_workers(squared, range(50), cores=cores)) == [n * n for n in range(50)]


@pytest.mark.usefixtures("beside")
def test_beside_other_threads_the_work_is_sent():
    assert list(in_workers(squared, range(5), cores=2)) == [0, 1, 4, 9, 16]


def test_no_jobs_start_no_workers(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr("guidegen.base.workers._Pool._started", None)
    assert list(in_workers(squared, [], cores=2)) == []


def test_what_the_work_holds_is_there():
    held = {"tide": "low"}
    assert list(in_workers(lambda job, _ask: held[job], ["tide"])) == ["low"]


def test_work_goes_on_meanwhile():
    def work(number: int) -> int:
        if number == 1:
            raise ValueError(number)
        if number == 2:
            os.kill(os.getpid(), signal.SIGKILL)
        return os.getpid() * number

    with meanwhile(work, range(4)) as results:
        found = results()
        assert found == results()
    assert [one is None for one in found] == [False, True, True, False]
    assert found[3] not in (0, 3 * os.getpid())
    assert multiprocessing.active_children() == []


class Turns(Parent[Any]):
    """Lets one job at a time have the turn; notes what came."""

    def __init__(self) -> None:
        self.holder: int | None = None
        self.had: list[int] = []

    def answer(self, job: int, question: Any) -> Any:
        assert question == "may I?"
        if self.holder is not None:
            return LATER
        self.holder = job
        self.had.append(job)
        return f"turn {len(self.had)}"

    def finished(self, job: int, result: Any) -> Any:
        self.lost(job)
        return result

    def lost(self, job: int) -> None:
        if self.holder == job:
            self.holder = None


def test_questions_wait_for_their_answer():
    turns = Turns()
    told = list(in_workers(lambda job, ask: (job, ask("may I?")), range(9), turns, cores=4))
    assert [job for job, _ in told] == list(range(9))
    assert sorted(turn for _, turn in told) == [f"turn {n}" for n in range(1, 10)]


def test_a_job_that_fails_gives_up_its_turn():
    def work(job: int, ask: Ask) -> int:
        ask("may I?")
        if job < 2:
            os.kill(os.getpid(), signal.SIGKILL)
        return job

    turns = Turns()
    with pytest.raises(LostWorkerError):
        list(in_workers(work, range(4), turns, cores=2))
    assert len(turns.had) >= 1
    assert turns.holder is None or turns.holder in turns.had


@pytest.mark.parametrize("number", [signal.SIGSEGV, signal.SIGABRT, signal.SIGKILL, signal.SIGTERM])
def test_the_job_of_a_dead_worker_is_named_in_its_turn(number: signal.Signals):
    def work(job: int, _ask: Ask) -> int:
        if job in (3, 5):
            faulthandler.disable()
            os.kill(os.getpid(), number)
        return job

    results = in_workers(work, range(9), cores=4)
    assert [next(results) for _ in range(3)] == [0, 1, 2]
    with pytest.raises(LostWorkerError) as lost:
        next(results)
    assert lost.value.job == 3
    assert multiprocessing.active_children() == []


def test_leaving_without_a_word_is_a_death_too():
    with pytest.raises(LostWorkerError):
        list(in_workers(lambda _job, _ask: os._exit(0), [1]))


@pytest.mark.parametrize(
    "error",
    [
        ZeroDivisionError("a brush too many"),
        MachineError("The disk is full.", "Make room."),
        OSError(28, "No space left on device", "/delta/x"),
        UnicodeEncodeError("ascii", "ö", 0, 1, "no"),
        BrokenTemplateError("templates/guide.html", 3, "no such tag", exceeded=True),
    ],
    ids=lambda error: type(error).__name__,
)
def test_an_error_comes_back_as_it_was(error: Exception):
    def work(_job: int, _ask: Ask) -> None:
        with busy_with("guides/ferry-watch"):
            raise error

    with pytest.raises(type(error)) as caught:
        list(in_workers(work, [1]))
    assert str(caught.value) == str(error)
    assert {**vars(caught.value), "__notes__": 0} == {**vars(error), "__notes__": 0}
    assert activity_notes(caught.value) == (
        () if isinstance(error, MachineError) else ("guides/ferry-watch",)
    )
    cause = caught.value.__cause__
    assert isinstance(cause, WorkerTraceError)
    assert cause.frames[-1].filename == __file__
    assert "in work" in str(cause)


def test_what_cannot_be_sent_is_an_error():
    with pytest.raises(Exception, match="pickle"):
        list(in_workers(lambda _job, _ask: lambda: None, [1]))
    assert multiprocessing.active_children() == []


def test_libraries_cannot_write_to_the_terminal(capfd: pytest.CaptureFixture[str]):
    list(in_workers(lambda _job, _ask: os.write(2, b"TIFFReadDirectory: Warning"), [1]))
    assert capfd.readouterr() == ("", "")


def test_nobody_is_asked_anything_by_default():
    with pytest.raises(LookupError):
        Parent().answer(1, "?")


# Prints the numbers of two workers, which then wait for ever. Each holds the standard output for as long as it lives.
WAITING = """
import os, sys, time
from guidegen.base.stopping import install_handlers
from guidegen.base.workers import LATER, Parent, in_workers
install_handlers()
def work(job, ask):
    os.write(1, b"%d\\n" % os.getpid())
    ask("how long?")
class Silent(Parent):
    def answer(self, job, question):
        return LATER
try:
    list(in_workers(work, range(2), Silent(), cores=2))
except KeyboardInterrupt:
    print("stopped", flush=True)
"""


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL])
@pytest.mark.parametrize("group", [False, True])
def test_no_worker_outlives_its_parent(number: signal.Signals, group: bool):
    """All processes hold the pipe's other end: it only comes to its end when the last of them is gone."""
    run = subprocess.Popen(
        [sys.executable, "-c", WAITING],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
    )
    assert run.stdout is not None
    workers = [int(run.stdout.readline()) for _ in range(2)]
    assert run.pid not in workers
    (os.killpg if group else os.kill)(run.pid, number)
    out, err = run.communicate(timeout=PATIENCE)
    assert out == (b"" if number == signal.SIGKILL else b"stopped\n")
    assert err == b""
