"""Worker processes for heavy work: each has one job at a time, results come in order, and none outlives its pool.

Work is a function that is called in a worker with a job and with `ask`, which puts a question to the parent and waits for
its answer. On Linux a worker is a fork while the process has no other threads: it has all that the work holds without a
copy. Elsewhere it is a fresh process that is sent the work once, as a pickle.
"""

from __future__ import annotations

import gc
import io
import os
import pickle
import sys
import threading
import traceback
import warnings
from collections.abc import Callable, Generator, Iterable, Iterator, Sequence
from contextlib import closing, contextmanager, suppress
from dataclasses import dataclass, field
from functools import partial
from itertools import islice
from typing import TYPE_CHECKING, Any, Generic, TypeVar, overload

from guidegen.base.errors import MachineError
from guidegen.base.stopping import leave_to_parent, no_signal_between

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.process import BaseProcess

J = TypeVar("J")
R = TypeVar("R")
Ask = Callable[[Any], Any]
Work = Callable[[J, Ask], R]

# Where workers are forks, they are worth their start from so many jobs of some milliseconds on, and else from so many.
MANY_FOR_FORKS, MANY = 16, 128
# Jobs that are begun before the result of an earlier one was taken, for each worker.
AHEAD = 4
# What `Parent.answer` gives when the question has to wait.
LATER = object()


class LostWorkerError(MachineError):
    """A worker came to its end over a job: a library crashed, or the system ended it. `job` is its number, from 0."""

    def __init__(self, job: int) -> None:
        super().__init__(
            "A process that guidegen works with was ended from outside, or has crashed.",
            "If this machine is short of memory, end some other programs. Nothing was written.",
        )
        self.job = job


class WorkerTraceError(Exception):
    """The cause of an error that was raised in a worker: where that was. `frames` as `traceback.extract_tb` gives them."""

    def __init__(self, text: str, frames: traceback.StackSummary) -> None:
        super().__init__(f"\n{text}")
        self.frames = frames


class Parent(Generic[R]):
    """What the parent does for its workers, job by number; to be overridden where they ask, or results change."""

    def answer(self, job: int, question: Any) -> Any:
        """The answer to a question of a job; LATER where there is none yet, then this is called again."""
        raise LookupError(job, question)

    def finished(self, job: int, result: Any) -> R:
        """Turn a job's result into what the caller gets, as soon as it is sent; the job holds nothing any more."""
        del job
        made: R = result
        return made

    def lost(self, job: int) -> None:
        """Called where the job raised an error or its worker died; the job holds nothing any more."""


def usable_cores() -> int:
    """How many cores this process may use, which can be fewer than the machine has."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def can_fork() -> bool:
    """Whether workers have all that this process has, and start at once."""
    # What libraries of macOS do to a fork is the reason why Python does not fork there either.
    return sys.platform == "linux" and threading.active_count() == 1


@overload
def in_workers(
    work: Work[J, R], jobs: Iterable[J], *, cores: int | None = None, shared: Sequence[object] = ()
) -> Generator[R, None, None]: ...


@overload
def in_workers(
    work: Work[J, Any], jobs: Iterable[J], parent: Parent[R], *, cores: int | None = None
) -> Generator[R, None, None]: ...


def in_workers(
    work: Work[J, Any],
    jobs: Iterable[J],
    parent: Parent[R] | None = None,
    *,
    cores: int | None = None,
    shared: Sequence[object] = (),
) -> Generator[R, None, None]:
    """The results of all jobs in the order given, made by as many workers as there are cores.

    `shared` are objects that results may hold: they come back as the parent's own, and not as copies. Jobs are taken
    only as results are. An error in a job is raised when its turn comes, as LostWorkerError where its
    worker died. Whatever ends the iteration ends the workers; close it where it may be left off.
    """
    pool = _Pool(work, parent or Parent(), cores or usable_cores(), shared)
    coming = enumerate(jobs)
    try:
        taken = given = 0
        while True:
            room = min(pool.free(), taken + AHEAD * pool.size - given)
            for number, job in islice(coming, max(0, room)):
                pool.give(number, job)
                given += 1
            if taken in pool.results:
                result, error = pool.results.pop(taken)
                if error is not None:
                    raise error
                yield result
                taken += 1
            elif taken == given:
                return
            else:
                pool.wait()
    finally:
        pool.end()


def mapped(
    work: Callable[[J], R],
    jobs: Sequence[J],
    name: Callable[[J], str],
    *,
    cores: int | None = None,
    shared: Sequence[object] = (),
) -> Generator[R, None, None]:
    """The results of all jobs in the order given: of few in this process, of many in workers.

    `name` is what a job was about, for MachineError where a worker died over it.
    """
    enough = MANY_FOR_FORKS if can_fork() else MANY
    if len(jobs) < enough or (cores or usable_cores()) < 2:
        yield from map(work, jobs)
        return
    # What this sets up, as compiled templates, forks have from the start.
    yield work(jobs[0])
    rest = jobs[1:]
    with closing(in_workers(partial(_unasked, work), rest, cores=cores, shared=shared)) as results:
        try:
            yield from results
        except LostWorkerError as lost:
            raise MachineError(
                f"A process that guidegen works with has crashed over “{name(rest[lost.job])}”, or was ended from outside.",
                "If this machine is short of memory, end some other programs. Nothing was written.",
            ) from None


@contextmanager
def meanwhile(work: Callable[[J], R], jobs: Sequence[J]) -> Iterator[Callable[[], list[R | None]]]:
    """Begin each job in a worker of its own while this process goes on with other things.

    Yields a function that waits for all results and returns them in order, None where the work failed or its worker died.
    """
    pool: _Pool[J, R] = _Pool(partial(_unasked, work), Parent(), len(jobs), ())

    def results() -> list[R | None]:
        while len(pool.results) < len(jobs):
            pool.wait()
        return [pool.results[number][0] for number in range(len(jobs))]

    try:
        for number, job in enumerate(jobs):
            pool.give(number, job)
        yield results
    finally:
        pool.end()


def _unasked(work: Callable[[J], R], job: J, _ask: Ask) -> R:
    return work(job)


@dataclass(slots=True, eq=False)
class _Worker:
    """A process, our end of its pipe, the number of its job, and its question if one waits for an answer."""

    process: BaseProcess
    pipe: Connection
    job: int | None = None
    question: list[Any] = field(default_factory=list)


class _Pool(Generic[J, R]):
    """The workers as the parent sees them. `results` has (result, None) or (None, error) by number."""

    def __init__(self, work: Work[J, Any], parent: Parent[R], size: int, shared: Sequence[object]) -> None:
        """Workers start when there is something for them to do."""
        self.size = size
        self.results: dict[int, tuple[Any, BaseException | None]] = {}
        self._work = work
        self._shared = shared
        self._parent = parent
        self._workers: list[_Worker] = []

    def free(self) -> int:
        """How many jobs could begin now."""
        return self.size - sum(worker.job is not None for worker in self._workers)

    def give(self, number: int, job: J) -> None:
        """Begin a job; there is a free worker."""
        worker = next((one for one in self._workers if one.job is None), None) or self._started()
        worker.job = number
        self._send(worker, job)

    def wait(self) -> None:
        """Wait until a worker has something to say or comes to its end, and see to it."""
        from multiprocessing.connection import wait

        busy = [worker for worker in self._workers if worker.job is not None]
        heard = {*wait([*(one.pipe for one in busy), *(one.process.sentinel for one in busy)])}
        for worker in busy:
            if worker.pipe in heard or worker.process.sentinel in heard:
                self._hear(worker)
        for worker in busy:
            if worker.question and worker.job is not None:
                answer = self._parent.answer(worker.job, worker.question[0])
                if answer is not LATER:
                    worker.question.clear()
                    self._send(worker, answer)

    def end(self) -> None:
        """Kill all workers and wait until they are gone."""
        for worker in self._workers:
            worker.process.kill()
        for worker in self._workers:
            worker.process.join()
            worker.pipe.close()
        self._workers.clear()

    def _hear(self, worker: _Worker) -> None:
        try:
            kind, what = _Reader(io.BytesIO(worker.pipe.recv_bytes()), self._shared).load()
        except (EOFError, OSError):
            self._lose(worker)
            return
        if kind == "asks":
            worker.question.append(what)
            return
        job, worker.job = worker.job, None
        if job is None:
            return
        if kind == "has":
            self.results[job] = self._parent.finished(job, what), None
        else:
            self._parent.lost(job)
            self.results[job] = None, _error_from_parts(*what)

    def _send(self, worker: _Worker, what: Any) -> None:
        # Where the worker is no more, the next wait tells.
        with suppress(BrokenPipeError, ConnectionResetError):
            worker.pipe.send(what)

    def _lose(self, worker: _Worker) -> None:
        self._workers.remove(worker)
        worker.process.kill()
        worker.process.join()
        worker.pipe.close()
        if worker.job is not None:
            self._parent.lost(worker.job)
            self.results[worker.job] = None, LostWorkerError(worker.job)

    def _started(self) -> _Worker:
        from multiprocessing import get_context

        forks = can_fork()
        context: Any = get_context("fork" if forks else "spawn")
        ours, theirs = context.Pipe()
        # A fork has the parent's ends of all pipes: it would never hear that the parent is gone.
        inherited = [ours, *(worker.pipe for worker in self._workers)] if forks else []
        process = context.Process(
            target=_serve, args=(theirs, inherited, self._work, self._shared), daemon=True
        )
        with no_signal_between(), warnings.catch_warnings():
            # From Python 3.12 on a fork warns of threads. Those that are not Python's are numpy's, made for forks.
            warnings.simplefilter("ignore", DeprecationWarning)
            process.start()
            worker = _Worker(process, ours)
            self._workers.append(worker)
        theirs.close()
        return worker


def _serve(
    pipe: Connection, inherited: list[Connection], work: Work[Any, Any], shared: Sequence[object]
) -> None:
    """The worker's loop: one job after another, until the parent is gone or kills it."""
    leave_to_parent()
    for other in inherited:
        other.close()
    # Libraries write straight to the terminal what they think of a broken file. Errors of ours go by the pipe.
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 2)
    os.close(nowhere)
    # To collect what came with the fork would copy it.
    gc.freeze()
    numbers = {id(one): number for number, one in enumerate(shared)}

    def tell(kind: str, what: Any) -> None:
        told = io.BytesIO()
        _Writer(told, numbers).dump((kind, what))
        try:
            pipe.send_bytes(told.getbuffer())
        except (BrokenPipeError, ConnectionResetError):
            # Nobody is there any more.
            os._exit(0)

    def hear() -> Any:
        try:
            return pipe.recv()
        except (EOFError, ConnectionResetError):
            os._exit(0)

    def ask(question: Any) -> Any:
        tell("asks", question)
        return hear()

    while True:
        job = hear()
        try:
            tell("has", work(job, ask))
        except Exception as error:  # noqa: BLE001  whatever it is, it is the parent's to deal with
            tell("failed", _error_parts(error))


class _Writer(pickle.Pickler):
    """Writes a pickle in which shared objects stand by their numbers."""

    def __init__(self, out: io.BytesIO, numbers: dict[int, int]) -> None:
        super().__init__(out, protocol=pickle.HIGHEST_PROTOCOL)
        self._numbers = numbers

    def persistent_id(self, one: object) -> int | None:
        """The number of a shared object, None for all others."""
        return self._numbers.get(id(one))


class _Reader(pickle.Unpickler):
    """Reads such a pickle, with the objects of `shared` in the place of the numbers."""

    def __init__(self, data: io.BytesIO, shared: Sequence[object]) -> None:
        super().__init__(data)
        self._shared = shared

    def persistent_load(self, number: int) -> object:
        """The object of that number."""
        return self._shared[number]


def _error_parts(error: Exception) -> tuple[Any, ...]:
    """An error as what `_error_from_parts` takes: its own pickle may call its class with wrong arguments."""
    text = "".join(traceback.format_exception(error))
    args = error.__reduce__()[1]
    return type(error), args, vars(error), text, traceback.extract_tb(error.__traceback__)


def _error_from_parts(
    kind: type[BaseException],
    args: tuple[Any, ...],
    values: dict[str, Any],
    text: str,
    frames: traceback.StackSummary,
) -> BaseException:
    """The error that a worker took apart, with what its traceback was there as its cause."""
    error = kind.__new__(kind, *args)
    if isinstance(error, OSError | UnicodeError):
        error = kind(*args)
    vars(error).update(values)
    error.__cause__ = WorkerTraceError(text, frames)
    return error
