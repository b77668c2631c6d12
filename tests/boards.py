"""Boards for tests to build, and how to compare what was built."""

import shutil
from datetime import date
from pathlib import Path

REPO = Path(__file__).resolve().parents[1]
DEMO = REPO / "site_demo"
DEMO_DAY = date(2026, 10, 10)
BOARD_PARTS = ("cards", "makers", "calls", "offers", "pages", "photos")


def copy_of_demo(folder: Path) -> Path:
    """The demo's posts and photos in `folder`, with nothing built."""
    folder.mkdir(parents=True, exist_ok=True)
    shutil.copy(DEMO / "board.toml", folder)
    for part in BOARD_PARTS:
        shutil.copytree(DEMO / part, folder / part)
    return folder


def files_of(folder: Path) -> dict[str, bytes]:
    """Every file below `folder` with its bytes."""
    return {
        file.relative_to(folder).as_posix(): file.read_bytes()
        for file in sorted(folder.rglob("*"))
        if file.is_file()
    }
