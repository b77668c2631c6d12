"""What the operating system refuses, as a problem that says where and what to do."""

import errno

from swapboard.problems import Problem

_FIXES = {
    errno.ENOSPC: "make room on the disk, then run this again",
    errno.EDQUOT: "make room in your share of the disk, then run this again",
    errno.EACCES: "give whoever runs this the right to read and write there",
    errno.EPERM: "give whoever runs this the right to read and write there",
    errno.EROFS: "use a folder on a disk that can be written to",
    errno.ENAMETOOLONG: "give the folder or the file a shorter name",
    errno.ENOTDIR: "move the file away that stands where a folder has to be",
    errno.EEXIST: "move the file away that stands where a folder has to be",
    errno.EMFILE: "close some programs, then run this again",
}


def problem_of(error: OSError, place: str) -> Problem:
    """`error` as a problem; `place` is where it is put down to if it names no file."""
    where = error.filename if error.filename is not None else place
    where = where.decode("utf-8", "replace") if isinstance(where, bytes) else str(where)
    fix = _FIXES.get(error.errno or 0, "look at the disk and the folder's permissions")
    got = error.strerror or str(error) or type(error).__name__
    return Problem(where, 0, "", "must be readable and writable", got, fix)
