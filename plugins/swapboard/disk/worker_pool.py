"""A few worker processes that outlive each other's crashes.

Each worker is a fresh interpreter that imports only what its job needs: the
calling script is not run again in it, so no main guard is asked for, and a
worker that dies takes only its own job with it, which is then known by name.
"""

import importlib
import os
import pickle
import queue
import struct
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, BinaryIO

_LENGTH = struct.Struct(">Q")
# Ctrl-C reaches the whole group of processes; it is for the one that asked to answer it.
_PROGRAM = (
    "import signal; signal.signal(signal.SIGINT, signal.SIG_IGN); "
    "from swapboard.disk.worker_pool import serve; serve()"
)


@dataclass(frozen=True, slots=True)
class Crashed:
    """What stands in for the result of a job whose worker died, with its exit code."""

    code: int


def run_jobs(
    target: Callable[[Any], Any], jobs: Sequence[Any], workers: int
) -> Iterator[tuple[int, Any]]:
    """(index of the job, result) of each job, in the order in which they finish.

    `target` is a function at the top of an importable module; jobs and results
    are pickled. The result is a `Crashed` where the worker died. Leaving the
    iterator early ends the workers.
    """
    waiting: queue.SimpleQueue[int | None] = queue.SimpleQueue()
    done: queue.SimpleQueue[tuple[int, Any]] = queue.SimpleQueue()
    for index in range(len(jobs)):
        waiting.put(index)
    crew = [_Worker(target, jobs, waiting, done) for _ in range(min(workers, len(jobs)))]
    try:
        for worker in crew:
            waiting.put(None)
            worker.start()
        for _ in jobs:
            index, result = done.get()
            if isinstance(result, BaseException):
                raise result
            yield index, result
    finally:
        for worker in crew:
            worker.end()


class _Worker(threading.Thread):
    def __init__(self, target: Callable, jobs: Sequence, waiting: Any, done: Any) -> None:
        super().__init__(daemon=True)
        self._target = f"{target.__module__}:{target.__qualname__}"
        self._jobs, self._waiting, self._done = jobs, waiting, done
        self._process: subprocess.Popen | None = None
        self._ended = False

    def run(self) -> None:
        while not self._ended and (index := self._waiting.get()) is not None:
            try:
                result = self._ask(self._jobs[index])
            except Exception as error:  # it is raised again in the calling thread
                result = error
            self._done.put((index, result))
        self.end()

    def _ask(self, job: Any) -> Any:
        if self._process is None:
            self._process = _start(self._target)
        process = self._process
        try:
            _send(process.stdin, job)
            return _receive(process.stdout)
        except (EOFError, OSError):
            self._process = None
            return Crashed(process.wait())

    def end(self) -> None:
        self._ended = True
        process = self._process
        if process is not None:
            process.kill()
            process.wait()


def _start(target: str) -> subprocess.Popen:
    paths = [os.path.abspath(path) for path in sys.path]
    environment = {**os.environ, "PYTHONPATH": os.pathsep.join(paths)}
    return subprocess.Popen(
        [sys.executable, "-c", _PROGRAM, target],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env=environment,
    )


def _send(stream: BinaryIO, what: Any) -> None:
    content = pickle.dumps(what)
    stream.write(_LENGTH.pack(len(content)) + content)
    stream.flush()


def _receive(stream: BinaryIO) -> Any:
    head = stream.read(_LENGTH.size)
    if len(head) < _LENGTH.size:
        raise EOFError
    (length,) = _LENGTH.unpack(head)
    content = stream.read(length)
    if len(content) < length:
        raise EOFError
    return pickle.loads(content)


def serve() -> None:
    """A worker's life: answer jobs from standard input until it closes."""
    module, name = sys.argv[1].split(":")
    # Whatever a library prints must not get between the answers.
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    target = getattr(importlib.import_module(module), name)
    while True:
        try:
            job = _receive(sys.stdin.buffer)
        except EOFError:
            return
        _send(answers, target(job))
