"""One run at a time on a board: build, preview and take share this lock."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from swapboard.disk.forget_journal import go_on
from swapboard.problems import Problem


class BoardBusy(Exception):
    """Another run holds this board; `problem` says which process."""

    def __init__(self, holder: str) -> None:
        must = "must be free, and another run is at work on this board"
        fix = "wait for it to end, or end it, and run this again"
        self.problem = Problem(".swapboard/lock", 0, "", must, f"process {holder}", fix)
        super().__init__(str(self.problem))


@contextmanager
def board_lock(state_folder: Path) -> Iterator[None]:
    """Hold `state_folder`/lock; raises `BoardBusy` at once when it is held, and
    OSError where the folder cannot be written to.

    A forgetting that was cut short is finished first. The operating system frees the
    lock when the process ends, however it ends, so that a killed run never has to be
    cleaned up after.
    """
    state_folder.mkdir(parents=True, exist_ok=True)
    # A link in the lock's place would have another file written to.
    flags = os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0)
    handle = os.open(state_folder / "lock", flags, 0o644)
    try:
        if not _try_lock(handle):
            holder = os.read(handle, 20).decode("ascii", "replace").strip() or "unknown"
            raise BoardBusy(holder)
        os.ftruncate(handle, 0)
        if hasattr(os, "pwrite"):
            os.pwrite(handle, str(os.getpid()).encode(), 0)
        # Before anything else is written, lest it is undone when that goes on later.
        go_on(state_folder.parent)
        yield
    finally:
        os.close(handle)


def _try_lock(handle: int) -> bool:
    try:
        import fcntl
    except ImportError:  # Windows: lock a byte far past the process number
        import msvcrt

        os.lseek(handle, 1024, os.SEEK_SET)
        try:
            msvcrt.locking(handle, msvcrt.LK_NBLCK, 1)
        except OSError:
            return False
        os.lseek(handle, 0, os.SEEK_SET)
        return True
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True
