"""What several kinds of test share: the demo, built once, and copies of it to change."""

import fcntl
import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from boards import DEMO_DAY, board_in, copy_of_demo, piece_of_demo


@pytest.fixture(scope="session")
def shared(tmp_path_factory) -> Path:
    """A folder of all processes that test side by side."""
    own = tmp_path_factory.getbasetemp()
    folder = own.parent if os.environ.get("PYTEST_XDIST_WORKER") else own
    folder.mkdir(parents=True, exist_ok=True)
    return folder


@pytest.fixture(scope="session")
def demo_cache(shared) -> Path:
    """The demo, built: a start for boards that need no new cuts, which take minutes."""
    return built_once(shared / "demo", copy_of_demo)


@pytest.fixture(scope="session")
def piece_cache(shared, demo_cache) -> Path:
    """A piece of the demo, built; its photos are not cut again."""
    return built_once(shared / "piece", lambda board: piece_of_demo(board_in(board, demo_cache)))


def built_once(place: Path, make: Callable[[Path], Path]) -> Path:
    """The board that `make(folder)` makes, built for the demo's day.

    Processes share it: the first makes it, under a lock, and the others wait.
    """
    board, done = place / "board", place / "done"
    with place.with_suffix(".lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not done.exists():
            from swapboard.site.build import build_board

            shutil.rmtree(place, ignore_errors=True)
            place.mkdir()
            built = build_board(make(board), today=DEMO_DAY)
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
    return board_in(tmp_path / "board", demo_cache)


@pytest.fixture(scope="session")
def piece_site(piece_cache) -> Path:
    """The built piece of the demo; tests only look at it."""
    return piece_cache / "output"


@pytest.fixture
def piece_board(piece_cache, tmp_path) -> Path:
    """A piece of the demo as a board to change, where the demo's size is not the point."""
    return board_in(tmp_path / "board", piece_cache)


def pytest_addoption(parser):
    """What the repo keeps of our own output is refreshed by one command each."""
    parser.addoption("--refresh-golden", action="store_true", help="keep the pages as built now")
    parser.addoption("--refresh-docs", action="store_true", help="write the README's lists anew")
