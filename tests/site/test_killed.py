"""Killed or stopped at any moment, a build leaves one whole site, and the next build heals."""

import random
import shutil
from pathlib import Path

import pytest

from boards import files_of
from ended_runs import WAYS, Runs
from hostile.small_board import build, make
from swapboard.disk import site_tree

# One build in the interpreter that is forked: all is imported and the templates are compiled.
BUILD = """
from pathlib import Path
from tempfile import TemporaryDirectory
from hostile.small_board import build, make

with TemporaryDirectory() as elsewhere:
    assert build(make(Path(elsewhere) / "board", {"pages/turn.md": "Title: Turn\\n"})).done

def act(board):
    raise SystemExit(not build(board).done)
"""


@pytest.fixture
def board(tmp_path) -> Path:
    """A small board, since how often a build can be ended does not hang on its pages."""
    return make(tmp_path / "board", {"pages/turn.md": "Title: Turn\n"})


def write_turn(board: Path, words: str) -> None:
    """A change that a build of the board sees."""
    (board / "pages" / "turn.md").write_text(f"Title: Turn\n\n{words}.\n")


def whole_version(board: Path) -> str:
    """The version of the live site, which every byte of it bears out."""
    named = site_tree.version_named_in(board / "output")
    assert named is not None, "no whole site is live"
    assert named == site_tree.version_found_in(board / "output")
    return named


def is_like_a_clean_build(board: Path, folder: Path) -> bool:
    """Whether the site has the bytes that the board's posts alone make elsewhere."""
    left_out = shutil.ignore_patterns("output", ".swapboard")
    clean = Path(shutil.copytree(board, folder, ignore=left_out))
    assert build(clean).done
    return files_of(board / "output") == files_of(clean / "output")


@pytest.mark.parametrize("way", WAYS)
def test_ended_at_any_change_a_build_leaves_a_whole_site(board, tmp_path, way):
    """Before each change that a build makes to the disk, and within each file it writes: the
    site is the last one or the new one, and the build after that is the new one."""
    old_ones = new_ones = 0
    with Runs(board, BUILD) as runs:
        for turn in ("one", "two", "three"):  # until both trees exist, and nothing is left over
            write_turn(board, turn)
            changes = runs.whole(way)
        for moment in range(1, changes + 1):
            before = whole_version(board)
            write_turn(board, f"{way} at {moment}")
            runs.ended(moment, way)
            ended = whole_version(board)
            runs.whole()
            assert f"{way} at {moment}." in (board / "output" / "pages" / "turn.html").read_text()
            assert ended in (before, whole_version(board))
            old_ones, new_ones = old_ones + (ended == before), new_ones + (ended != before)
    assert old_ones and new_ones, "runs were ended on one side of the swap only"
    assert is_like_a_clean_build(board, tmp_path / "clean")


def test_killed_again_while_it_heals(board, tmp_path):
    """One build after the other is killed, each at its own place, and none is ever finished:
    the site stays whole, and the first build that is left alone ends like a clean one."""
    with Runs(board, BUILD) as runs:
        write_turn(board, "one")
        runs.whole()
        write_turn(board, "two")
        changes, before = runs.whole(), whole_version(board)
        for moment in sorted(random.Random(50).sample(range(1, changes - 20), 15)):
            write_turn(board, f"killed at {moment}")
            assert runs.ended(moment) == "killed"
            assert whole_version(board) == before
        runs.whole()
    assert is_like_a_clean_build(board, tmp_path / "clean")


def test_killed_before_there_is_any_site(board, tmp_path):
    """A first build that is killed shows nothing, or the whole site."""
    with Runs(board, BUILD) as runs:
        for moment in (1, 2, 3, 5, 8, 13, 21, 34, 55, 89):
            runs.ended(moment)
            assert not (board / "output").exists() or whole_version(board)
        runs.whole()
    assert is_like_a_clean_build(board, tmp_path / "clean")
