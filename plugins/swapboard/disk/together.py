"""Several files of a board written together: all of them, or none."""

import os
import shutil
import stat
from collections.abc import Mapping
from pathlib import Path

from swapboard.disk.contain import contained
from swapboard.problems import Problem

# What others refer to comes first, so that a run that is killed between two renames
# leaves files that nothing refers to yet, and never a reference to nothing.
_ORDER = ("private", "photos", "makers", "cards", "calls", "offers")
PRIVATE_MODE = 0o600


def write_together(board: Path, files: Mapping[str, bytes], new: set[str]) -> list[Problem]:
    """Write `files` (bytes by path within the board); those in `new` must not be there yet.

    Each is written aside first and renamed then; if anything fails, what was there
    before is put back and OSError raised. Files below private/ are for their owner alone
    (mode 0600, folder 0700). Gives the problems for which nothing was written.
    """
    wrong = [problem for path in sorted(files) if (problem := _refused(board, path, path in new))]
    if wrong:
        return wrong
    aside = board / ".swapboard" / f"taking.{os.getpid()}"
    shutil.rmtree(aside, ignore_errors=True)
    (aside / "new").mkdir(parents=True)
    (aside / "old").mkdir()
    done: list[tuple[Path, Path | None]] = []
    try:
        staged = [_stage(board, aside, number, path, files[path])
                  for number, path in enumerate(sorted(files, key=_place))]
        for made, file in staged:
            old = aside / "old" / made.name
            if file.exists():
                shutil.copy2(file, old)
                os.replace(made, file)
                done.append((file, old))
            else:
                os.replace(made, file)
                done.append((file, None))
    except BaseException:
        for file, old in reversed(done):
            if old is None:
                file.unlink(missing_ok=True)
            else:
                os.replace(old, file)
        raise
    finally:
        shutil.rmtree(aside, ignore_errors=True)
    return []


def _place(path: str) -> tuple[int, str]:
    kind = path.partition("/")[0]
    return (_ORDER.index(kind) if kind in _ORDER else len(_ORDER), path)


def _refused(board: Path, path: str, is_new: bool) -> Problem | None:
    file = board / path
    if not contained(board, file) or file.is_symlink():
        fix = "put a real file or folder there in place of the link."
        return Problem(path, 0, "", "must lie inside the board's folder", "a link", fix)
    if is_new and file.exists():
        fix = "rename the file that is there."
        return Problem(path, 0, "", "is there already, and nothing is overwritten", None, fix)
    return None


def _stage(board: Path, aside: Path, number: int, path: str, data: bytes) -> tuple[Path, Path]:
    """The file written aside, and where it goes."""
    file = board / path
    is_private = path.startswith("private/")
    file.parent.mkdir(mode=0o700 if is_private else 0o777, parents=True, exist_ok=True)
    made = aside / "new" / str(number)
    handle = os.open(made, os.O_WRONLY | os.O_CREAT | os.O_EXCL,
                     PRIVATE_MODE if is_private else 0o666)
    with os.fdopen(handle, "wb") as opened:
        opened.write(data)
        opened.flush()
        os.fsync(opened.fileno())
    if file.exists() and not is_private:
        os.chmod(made, stat.S_IMODE(file.stat().st_mode))
    return made, file
