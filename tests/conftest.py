"""What several kinds of test share: the demo, built once, and copies of it to change."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings

from boards import DEMO_DAY, board_in, copy_of_demo, piece_of_demo
from longest_first import rank_of
from made_once import made_once

# A slow machine is no failure.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


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
    """The board that `make(folder)` makes, built for the demo's day, once for all processes."""

    def make_and_build(board: Path) -> None:
        from swapboard.site.build import build_board

        built = build_board(make(board), today=DEMO_DAY)
        assert built.done, "\n".join(map(str, built.problems))

    return made_once(place, make_and_build)


def pytest_collection_modifyitems(items):
    """What takes longest is begun first, so that nothing is waited for at the end."""
    items.sort(key=lambda item: rank_of(item.path))


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


@pytest.fixture
def looked_at_once(shared, monkeypatch) -> None:
    """For tests in which the same few pictures are handed in again and again, and the point is
    what becomes of the cards found in them: each picture is looked at once."""
    from found_once import looking_once
    from swapboard.disk import adding, photo_work

    for module in (adding, photo_work):
        monkeypatch.setattr(module, "find_cards", looking_once(shared / "found"))


def pytest_addoption(parser):
    """What the repo keeps of our own output is refreshed by one command each."""
    parser.addoption("--refresh-golden", action="store_true", help="keep the pages as built now")
    parser.addoption("--refresh-docs", action="store_true", help="write the README's lists anew")
