"""What several kinds of test share: boards to build, and the demo, built once."""

import os
import shutil
from datetime import date
from pathlib import Path

import pytest

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


@pytest.fixture(scope="session")
def demo_cache(tmp_path_factory, worker_id) -> Path:
    """A copy of the demo with its photos cut: a start for boards that need no new cuts."""
    from swapboard.site.build import build_board

    board = copy_of_demo(tmp_path_factory.mktemp("demo") / "board")
    built = build_board(board, today=DEMO_DAY, workers=1)
    assert built.done, "\n".join(map(str, built.problems))
    return board


@pytest.fixture(scope="session")
def demo_site(demo_cache) -> Path:
    """The built demo; tests only look at it."""
    return demo_cache / "output"


@pytest.fixture
def demo_board(demo_cache, tmp_path) -> Path:
    """The demo as a board to change: posts, photos and their cache, nothing built."""
    board = tmp_path / "board"
    board.mkdir()
    shutil.copy(demo_cache / "board.toml", board)
    for part in BOARD_PARTS:
        shutil.copytree(demo_cache / part, board / part)
    shutil.copytree(demo_cache / ".swapboard" / "cache", board / ".swapboard" / "cache")
    return board


@pytest.fixture(scope="session")
def worker_id(request) -> str:
    """Which of pytest-xdist's processes this is; "main" without it."""
    return os.environ.get("PYTEST_XDIST_WORKER", "main")


def pytest_addoption(parser):
    """One command refreshes the kept pages: python3 tests --refresh-golden"""
    parser.addoption("--refresh-golden", action="store_true", help="keep the pages as built now")
