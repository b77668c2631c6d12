"""A new board: a copy of the starter, in a folder of the keeper's choice."""

import shutil
from pathlib import Path

from swapboard.disk.resources import starter_folder
from swapboard.problems import Problem

_LEFT_OUT = shutil.ignore_patterns("output", ".swapboard", "__pycache__", "*.pyc", ".gitkeep")


def start_board(folder: Path) -> list[Problem]:
    """Copy the starter board to `folder`, which must be new or empty."""
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        return [
            Problem(str(folder), 0, "", "must be a new or an empty folder", None,
                    "name another folder; nothing was written")
        ]
    try:
        shutil.copytree(starter_folder(), folder, ignore=_LEFT_OUT, dirs_exist_ok=True)
        for name in ("calls", "cards", "makers", "offers", "pages", "photos"):
            (folder / name).mkdir(exist_ok=True)
        private = folder / "private"
        private.mkdir(exist_ok=True)
        private.chmod(0o700)
    except OSError as error:
        return [Problem(str(folder), 0, "", "must be a folder that can be written to",
                        error.strerror, "choose another place or mend its permissions")]
    return []
