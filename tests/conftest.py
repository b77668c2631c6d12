"""What several kinds of test share: the demo, built once, and copies of it to change."""

import fcntl
import os
import shutil
from pathlib import Path

import pytest

from boards import BOARD_PARTS, DEMO_DAY, copy_of_demo


@pytest.fixture(scope="session")
def demo_cache(tmp_path_factory) -> Path:
    """A copy of the demo with its photos cut: a start for boards that need no new cuts.

    Cutting takes minutes, so processes that test side by side share one copy:
    the first makes it, under a lock, and the others wait.
    """
    from swapboard.site.build import build_board

    own = tmp_path_factory.getbasetemp()
    shared = own.parent if os.environ.get("PYTEST_XDIST_WORKER") else own
    board, done = shared / "demo" / "board", shared / "demo" / "done"
    shared.mkdir(parents=True, exist_ok=True)
    with (shared / "demo.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not done.exists():
            shutil.rmtree(shared / "demo", ignore_errors=True)
            built = build_board(copy_of_demo(board), today=DEMO_DAY)
            assert built.done, "\n".join(map(str, built.problems))
            done.touch()
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


def pytest_addoption(parser):
    """What the repo keeps of our own output is refreshed by one command each."""
    parser.addoption("--refresh-golden", action="store_true", help="keep the pages as built now")
    parser.addoption("--refresh-docs", action="store_true", help="write the README's lists anew")
