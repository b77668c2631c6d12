"""Runs that end at a chosen change to a folder, however fast or slow the machine is.

A change is a call that makes, moves, opens for writing or deletes something in the folder,
seen by an audit hook (PEP 578) just before it happens. Runs are forks of one interpreter that
has imported all there is to import, so that hundreds of them cost little.
"""

import os
import resource
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import NoReturn

CHANGES = {"open", "os.chmod", "os.link", "os.mkdir", "os.remove", "os.rename", "os.rmdir",
           "os.symlink", "os.truncate"}  # fmt: skip
WRITING = os.O_WRONLY | os.O_RDWR | os.O_CREAT | os.O_TRUNC
WAYS = ("killed", "killed in a write", "Ctrl-C")


class Runs:
    """Runs of one action, by `with`: `code` imports what it needs and defines `act(folder)`."""

    def __init__(self, folder: Path, code: str) -> None:
        self._folder, self._code = folder, code

    def __enter__(self) -> "Runs":
        command = [sys.executable, __file__, str(self._folder), self._code]
        paths = os.pathsep.join(path for path in sys.path if path)
        self._process = subprocess.Popen(
            command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True,
            env={**os.environ, "PYTHONPATH": paths},
        )
        return self

    def __exit__(self, *_error: object) -> None:
        self._process.communicate()
        assert self._process.returncode == 0

    def whole(self, way: str = "killed") -> int:
        """A run that nothing ends: at how many changes it could be ended in one of `WAYS`."""
        ended, changes = self._told(f"0 {way}")
        assert ended == "by itself"
        return changes

    def ended(self, moment: int, way: str = "killed") -> str:
        """A run ended at its change number `moment`, from 1, in one of `WAYS`; to be killed in
        a write, only files that are opened for writing count.

        Says how it ended: "killed", "Ctrl-C", "by itself" (where it made fewer changes) or
        "refused" (with an exit code).
        """
        return self._told(f"{moment} {way}")[0]

    def _told(self, asked: str) -> tuple[str, int]:
        self._process.stdin.write(f"{asked}\n")
        self._process.stdin.flush()
        for line in self._process.stdout:
            if line.startswith("=ended "):
                _, changes, ended = line.strip().split(" ", 2)
                return ended, int(changes)
        raise AssertionError("the runs' own interpreter ended")


def _run(act: Callable[[Path], None], folder: Path, moment: int, way: str) -> NoReturn:
    count = 0

    def count_and_end(event: str, given: tuple) -> None:
        nonlocal count
        is_left_out = way == "killed in a write" and event != "open"
        if is_left_out or not _is_change(event, given, str(folder)):
            return
        count += 1
        if count != moment:
            return
        if way == "killed":
            os.kill(os.getpid(), signal.SIGKILL)
        if way == "Ctrl-C":
            raise KeyboardInterrupt
        # The kernel writes so many bytes and then ends the process.
        signal.signal(signal.SIGXFSZ, signal.SIG_DFL)
        resource.setrlimit(resource.RLIMIT_FSIZE, (10, 10))

    sys.addaudithook(count_and_end)
    try:
        act(folder)
        ended = "by itself"
    except KeyboardInterrupt:
        ended = "Ctrl-C"
    except SystemExit as said:
        ended = "refused" if said.code else "by itself"
    os.write(1, f"=ended {count} {ended}\n".encode())
    os._exit(0)


def _is_change(event: str, given: tuple, folder: str) -> bool:
    if event == "ctypes.dlsym":  # two folders change places by a call that Python does not have
        return given[1] == "renameat2"
    if event not in CHANGES:
        return False
    if event == "open" and not (given[2] or 0) & WRITING:
        return False
    return any(isinstance(one, (str, bytes, os.PathLike)) and os.fsdecode(one).startswith(folder)
               for one in given[:2])  # fmt: skip


def main() -> None:
    """For each line of input, "MOMENT WAY", one run; for each run one line on how it ended."""
    folder, code = Path(sys.argv[1]), sys.argv[2]
    names: dict = {}
    exec(code, names)
    for line in sys.stdin:
        moment, _, way = line.strip().partition(" ")
        child = os.fork()
        if not child:
            _run(names["act"], folder, int(moment), way)
        _, status = os.waitpid(child, 0)
        if os.WIFSIGNALED(status):
            os.write(1, b"=ended 0 killed\n")


if __name__ == "__main__":
    main()
