"""`add card`, `take` and `photos`, ended at any moment, leave a board that is in order."""

import io

import pytest
from click.testing import CliRunner
from letters import jpeg, mail
from PIL import Image
from swap_board import make

from boards import files_of
from ended_runs import WAYS, Runs
from found_once import looking_once
from swapboard.cli import main
from swapboard.disk import photo_work
from swapboard.disk.load import load_board
from swapboard.problems import errors

ACT = """
import babel.dates, cv2, numpy, PIL.features, PIL.Image, PIL.ImageOps, pillow_heif
import swapboard.disk.adding, swapboard.disk.check, swapboard.disk.photo_work, swapboard.disk.taking
from pathlib import Path
from found_once import looking_once
from swapboard.cli import main

PIL.Image.init()
for module in (swapboard.disk.adding, swapboard.disk.photo_work):
    module.find_cards = looking_once(Path({notes!r}))

def act(board):
    main({words!r})
"""


def two_cards() -> bytes:
    """A picture of two cards, side by side."""
    one = Image.open(io.BytesIO(jpeg()))
    both = Image.new("RGB", (2 * one.width, one.height))
    both.paste(one, (0, 0))
    both.paste(one, (one.width, 0))
    out = io.BytesIO()
    both.save(out, "JPEG", quality=95)
    return out.getvalue()


@pytest.fixture
def outside(tmp_path):
    """Beside the board: a picture of two cards, and a mail with one."""
    (tmp_path / "table.jpg").write_bytes(two_cards())
    letter = mail("Here is one.", pictures=(("bus.jpg", jpeg()),))
    (tmp_path / "letter.eml").write_bytes(bytes(letter))
    return tmp_path


def anew(board):
    """The board as it was before any run, in the place of what a run made of it."""
    for file in sorted(board.rglob("*"), reverse=True):
        file.rmdir() if file.is_dir() else file.unlink()
    files = {"private/mail.csv": "maker,mail\ntom-varga,tom@post.example\n"}
    if board.name == "shown":
        files |= {"photos/bus.jpg": jpeg(), "cards/bus.md": "Title: Bus\nPhoto: bus.jpg\n"}
    return make(board, files)


def content(board):
    """What a keeper has: all but the state and what a build makes."""
    made = (".swapboard/", "output/")
    return {path: data for path, data in files_of(board).items() if not path.startswith(made)}


@pytest.mark.parametrize("way", WAYS)
@pytest.mark.parametrize("command", ["add", "take"])
def test_what_is_written_is_whole_and_what_was_there_stays(outside, command, way):
    """Ended at each change to the disk: no file of before is touched, each new one is whole,
    none is without what it names, and the same command is done at the next try."""
    board = outside / "board"
    words = {"add": ["add", "card", str(outside / "table.jpg"), "--board", str(board)],
             "take": ["take", str(outside / "letter.eml"), "--board", str(board), "--yes",
                      "--today", "2026-10-10"]}[command]  # fmt: skip
    seen = set()
    with Runs(board, ACT.format(words=words, notes=str(outside / "notes"))) as runs:
        before = content(anew(board))
        changes, done = runs.whole(way), content(board)
        assert len(done) >= len(before) + 2
        for moment in range(1, changes + 1):
            anew(board)
            ended = runs.ended(moment, way)
            left = content(board)
            assert left.items() <= done.items() and before.items() <= left.items(), moment
            assert way != "Ctrl-C" or left in (before, done), moment
            assert errors(load_board(board).problems) == [], moment
            if moment % 3 == 0 and ended != "by itself":
                runs.whole(way)
            seen.add(len(left))
    assert len(before) in seen


@pytest.mark.parametrize("way", ["killed", "killed in a write"])
def test_looking_at_photos_is_done_at_the_next_try(tmp_path, monkeypatch, way):
    """What `photos` keeps of them is believed only where it is whole."""
    board, notes = anew(tmp_path / "shown"), tmp_path / "notes"
    monkeypatch.setattr(photo_work, "find_cards", looking_once(notes))
    words = ["photos", str(board), "--json"]
    told = CliRunner().invoke(main, words).stdout
    assert "bus.jpg" in told
    with Runs(board, ACT.format(words=words, notes=str(notes))) as runs:
        before = content(anew(board))
        for moment in range(1, runs.whole(way) + 1):
            anew(board)
            runs.ended(moment, way)
            assert content(board) == before
            assert CliRunner().invoke(main, words).stdout == told
