"""What several kinds of test share: the demo, built once, and copies of it to change."""

import shutil
from pathlib import Path

import pytest

from boards import BOARD_PARTS, DEMO_DAY, copy_of_demo


@pytest.fixture(scope="session")
def demo_cache(tmp_path_factory) -> Path:
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


def pytest_addoption(parser):
    """What the repo keeps of our own output is refreshed by one command each."""
    parser.addoption("--refresh-golden", action="store_true", help="keep the pages as built now")
    parser.addoption("--refresh-docs", action="store_true", help="write the README's lists anew")
