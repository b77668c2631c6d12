"""Swap two folders in one step, so that a visitor sees one whole site or the other."""

import ctypes
import errno
import os
import sys
from pathlib import Path

_AT_FDCWD = -100
_RENAME_EXCHANGE = 2


def exchange(new: Path, live: Path, aside: Path) -> None:
    """Put the folder `new` where `live` is, and what was live where `new` was.

    Linux does it in one system call (renameat2, RENAME_EXCHANGE, since 3.15).
    Elsewhere `live` steps aside for two renames; the folder `aside` is the
    journal of a half-done exchange, which `heal` finishes on the next run.
    """
    if not live.exists():
        live.parent.mkdir(parents=True, exist_ok=True)
        os.rename(new, live)
    elif not _renameat2(new, live):
        exchange_by_renames(new, live, aside)


def exchange_by_renames(new: Path, live: Path, aside: Path) -> None:
    """The exchange in three renames, for systems that have no single call."""
    os.rename(live, aside)
    os.rename(new, live)
    os.rename(aside, new)


def heal(new: Path, live: Path, aside: Path) -> None:
    """Finish an exchange that a killed run left half done; else do nothing."""
    if not aside.exists():
        return
    if not live.exists():
        os.rename(new if new.exists() else aside, live)
    if aside.exists() and not new.exists():
        os.rename(aside, new)


def _renameat2(new: Path, live: Path) -> bool:
    """Whether the kernel did it; False where it or the file system cannot."""
    if not sys.platform.startswith("linux"):
        return False
    call = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if call is None:
        return False
    done = call(_AT_FDCWD, os.fsencode(new), _AT_FDCWD, os.fsencode(live), _RENAME_EXCHANGE)
    if done == 0:
        return True
    code = ctypes.get_errno()
    if code in (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP):
        return False
    raise OSError(code, os.strerror(code), str(live))
