"""`swapboard check`: all there is to mend, and not a byte written."""

import json
import os
import re
import shutil

import pytest
from click.testing import CliRunner

from boards import REPO, files_of
from hostile.small_board import make
from swapboard.cli import main
from swapboard.disk.check import check_board
from swapboard.site.build import build_board

pytestmark = pytest.mark.usefixtures("looked_at_once")


def check(board, *more):
    return CliRunner().invoke(main, ["check", str(board), *more])


def state(folder):
    """Every file and folder with its bytes and time, so that any touch shows."""
    return files_of(folder), {p: os.lstat(p).st_mtime_ns for p in folder.rglob("*")}


def keys_in(value, path=""):
    """Every key of some JSON, lists as []."""
    if isinstance(value, dict):
        for key, inner in value.items():
            yield f"{path}{key}"
            yield from keys_in(inner, f"{path}{key}.")
    elif isinstance(value, list):
        for inner in value:
            if isinstance(inner, dict):
                yield from keys_in(inner, f"{path.removesuffix('.')}[].")


def documented(command):
    """The keys that the README names for a command."""
    text = (REPO / "README.md").read_text("utf-8")
    table = text.split("<!-- json -->")[1].split("<!-- /json -->")[0]
    rows = re.findall(r"^\| (.+?) \| `(.+?)` \|", table, re.MULTILINE)
    return {key for commands, key in rows if f"`{command}`" in commands}


def test_a_board_in_order_has_no_problems(tmp_path):
    """Exit code 0, two words, nothing written."""
    board = make(tmp_path)
    before = state(board)
    done = check(board)
    assert (done.exit_code, done.output) == (0, "No problems.\n")
    assert state(board) == before


def test_nothing_is_written_even_where_photos_are_cut(piece_board):
    """Not in .swapboard either: what its cache lacks is cut somewhere else."""
    cached = sorted((piece_board / ".swapboard" / "cache").iterdir())
    for file in cached:
        if file.name.startswith("card-"):
            file.unlink()
            break
    before = state(piece_board)
    done = check(piece_board)
    assert done.exit_code == 0, done.output
    assert state(piece_board) == before


def test_a_board_never_built_stays_without_state(piece_board):
    """check makes no .swapboard."""
    shutil.rmtree(piece_board / ".swapboard")
    for card in (piece_board / "cards").iterdir():
        if card.stem != "two-boats":
            card.unlink()
    for offer in (piece_board / "offers").iterdir():
        offer.unlink()
    before = state(piece_board)
    check(piece_board)
    assert state(piece_board) == before


def spoil(board):
    """Faults of every floor: a post, a reference, a point with no card, a photo, an address."""
    (board / "cards" / "a-date.md").write_text("Title: A\nMade: last week\n")
    (board / "cards" / "a-maker.md").write_text("Title: A\nMaker: nobody-here\n")
    (board / "cards" / "a-point.md").write_text("Title: A\nPhoto: two-boats.jpg at 1% 1%\n")
    (board / "cards" / "a-photo.md").write_text("Title: A\nPhoto: broken.jpg\n")
    (board / "photos" / "broken.jpg").write_bytes(b"no picture")
    (board / "pages" / "deep.md").write_text("Title: Deep\n\n" + ">" * 500 + "\n")


def test_check_names_all_that_a_build_would(piece_board):
    """The two tell the same problems, errors and warnings alike."""
    spoil(piece_board)
    checked = {str(problem) for problem in check_board(piece_board, workers=1)}
    built = build_board(piece_board, workers=1)
    assert not built.done
    assert {str(problem) for problem in built.problems} == checked
    for place in ("cards/a-date.md:2", "cards/a-maker.md:2", "cards/a-point.md:2",
                  "photos/broken.jpg", "pages/deep.md:3"):
        assert any(words.startswith(place) for words in checked), place


def test_a_private_address_is_named_with_its_line(tmp_path):
    """check finds it in the post itself, before there is a page; its words are not repeated."""
    board = make(tmp_path, {
        "private/addresses.csv": "maker,street\nada,47 Gallowglass Terrace\n",
        "pages/about.md": "Title: About\n\nHello.\n\nWrite to 47 *Gallowglass*\nterrace.\n",
    })
    done = check(board)
    assert done.exit_code == 1
    told = "pages/about.md:6: would show a street from private/addresses.csv:2"
    assert f"error: {told}" in done.output
    assert "gallowglass" not in done.output.lower()


def test_json_is_as_documented(piece_board):
    """The keys are those of the README's table, and problems are whole."""
    spoil(piece_board)
    done = check(piece_board, "--json")
    assert done.exit_code == 1
    told = json.loads(done.stdout)
    assert set(keys_in(told)) == documented("check")
    assert told["version"] == 1
    assert told["errors"] == sum(p["severity"] == "error" for p in told["problems"]) >= 5
    assert told["errors"] + told["warnings"] == len(told["problems"])


def test_json_of_a_board_in_order(tmp_path):
    """No problems is an empty list and exit code 0."""
    done = check(make(tmp_path), "--json")
    assert done.exit_code == 0
    told = json.loads(done.stdout)
    assert (told["errors"], told["warnings"], told["problems"]) == (0, 0, [])


def test_json_of_photos_is_as_documented(piece_board):
    """photos --json has the keys of the README's table, cards and problems included."""
    spoil(piece_board)
    done = CliRunner().invoke(main, ["photos", str(piece_board), "--json"])
    assert done.exit_code == 1
    told = json.loads(done.stdout)
    assert set(keys_in(told)) == documented("photos")
    assert [photo["file"] for photo in told["photos"] if photo["size"] is None] == [
        "photos/broken.jpg"
    ]


def test_names_that_no_encoding_has_can_be_printed(tmp_path):
    """A file name that is no UTF-8 is told in ASCII, as text and as JSON."""
    board = make(tmp_path)
    with open(os.path.join(os.fsencode(board / "cards"), b"\xff.md"), "wb") as file:
        file.write(b"Title: X\n")
    assert "cards/\\udcff.md" in check(board).output
    told = json.loads(check(board, "--json").stdout)
    assert any(p["path"] == "cards/\udcff.md" for p in told["problems"])


def test_a_folder_that_is_no_board(tmp_path):
    """One message that says what to do, exit code 1; a wrong call is 2."""
    done = check(tmp_path)
    assert done.exit_code == 1 and "swapboard start" in done.output
    assert CliRunner().invoke(main, ["build", str(tmp_path), "--today", "soon"]).exit_code == 2
    assert CliRunner().invoke(main, ["no-such-command"]).exit_code == 2
