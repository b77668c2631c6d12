"""Folders that are made once for all processes that test side by side."""

import fcntl
import shutil
from collections.abc import Callable
from pathlib import Path


def made_once(place: Path, make: Callable[[Path], object]) -> Path:
    """The folder that `make(folder)` fills, below `place`; its name ends like that of `place`.

    The first process makes it, under a lock, and the others wait. One that a killed or
    failed process left half made is made anew.
    """
    folder, done = place / place.name, place / "done"
    place.parent.mkdir(parents=True, exist_ok=True)
    with place.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not done.exists():
            shutil.rmtree(place, ignore_errors=True)
            place.mkdir()
            make(folder)
            done.touch()
    return folder
