"""Files in private/: readable by their owner alone, whole or not there."""

import os
from pathlib import Path

from swapboard.disk.contain import contained


def read_private(board: Path, path: str) -> str:
    """The text of a file in private/, "" where there is none; raises OSError."""
    file = board / path
    _must_be_inside(board, file)
    try:
        return file.read_text("utf-8")
    except FileNotFoundError:
        return ""


def write_private(board: Path, path: str, text: str, new: bool = False) -> None:
    """Write a file in private/ with mode 0600, in folders of mode 0700; raises OSError,
    and FileExistsError where it has to be `new` and is not."""
    file = board / path
    _must_be_inside(board, file)
    folder = board
    for part in Path(path).parent.parts:
        folder = folder / part
        folder.mkdir(mode=0o700, exist_ok=True)
    aside = file.with_name(f".{file.name}.{os.getpid()}")
    handle = os.open(aside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as opened:
            opened.write(text)
            opened.flush()
            os.fsync(opened.fileno())
        if new:
            # A link fails where the name is taken: of two runs at once, one keeps its secret.
            os.link(aside, file)
        else:
            os.replace(aside, file)
    finally:
        aside.unlink(missing_ok=True)


def _must_be_inside(board: Path, file: Path) -> None:
    if not contained(board, file):
        raise OSError(0, "a link that leads out of the board's folder", str(file))
