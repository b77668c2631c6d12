"""A disk that refuses, folders that are something else, runs that are broken off."""

import errno
import os
from pathlib import Path

import pytest
from click.testing import CliRunner

from boards import files_of
from hostile.small_board import build, make
from swapboard.cli import main
from swapboard.disk import exchange, site_tree
from swapboard.disk.staging import Staging

FULL = OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))


@pytest.fixture
def board(tmp_path):
    """A built board, changed since, so that the next build has to write."""
    made = make(tmp_path / "board")
    assert build(made).done
    (made / "cards" / "heron.md").write_text("Title: Another heron\n")
    (made / "cards" / "new.md").write_text("Title: New\n")
    return made


def run(board, *more):
    return CliRunner().invoke(main, ["build", str(board), "--today", "2026-10-10", *more])


def refused(done, board, before):
    """The build said so in words, ended with 1, and the live site is as it was."""
    assert done.exit_code == 1, done.output
    assert isinstance(done.exception, SystemExit)
    assert "Traceback" not in done.output
    assert "error: " in done.output and "Fix: " in done.output
    assert files_of(board / "output") == before


@pytest.mark.parametrize("after", [0, 1, 3])
@pytest.mark.parametrize("what", ["write_bytes", "mkdir"])
def test_a_full_disk_leaves_the_live_site_as_it_was(board, monkeypatch, what, after):
    """Wherever in a build the disk is full, it is said and nothing visible changes."""
    before = files_of(board / "output")
    real, left = getattr(Path, what), [after]

    def until_full(self, *args, **kwargs):
        if not left[0]:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC), str(self))
        left[0] -= 1
        return real(self, *args, **kwargs)

    with monkeypatch.context() as patch:
        patch.setattr(Path, what, until_full)
        done = run(board)
    refused(done, board, before)
    assert "No space left on device" in done.output and "make room" in done.output
    assert build(board).done
    assert "cards/new.html" in files_of(board / "output")


@pytest.mark.parametrize("where", [(exchange, "exchange"), (site_tree, "write_record"),
                                   (site_tree, "write_version"), (site_tree, "files_in")])
@pytest.mark.parametrize("code", [errno.ENOSPC, errno.EROFS, errno.EACCES, errno.EIO])
def test_any_refusal_before_the_swap_is_a_message(board, monkeypatch, where, code):
    """A read-only disk or a folder of somebody else's ends no build in a traceback."""
    before = files_of(board / "output")

    def refuse(*args, **kwargs):
        raise OSError(code, os.strerror(code))

    with monkeypatch.context() as patch:
        patch.setattr(*where, refuse)
        done = run(board)
    refused(done, board, before)
    assert build(board).done


def test_what_cannot_be_tidied_after_the_swap_does_not_undo_it(board, monkeypatch):
    """Once the site is live a build has succeeded."""

    def refuse(*args, **kwargs):
        raise FULL

    monkeypatch.setattr(site_tree, "forget_records_but", refuse)
    monkeypatch.setattr("swapboard.site.pelican_class.prune", refuse)
    assert run(board).exit_code == 0
    assert "cards/new.html" in files_of(board / "output")


@pytest.mark.parametrize("moment", ["__init__", "put", "finish", "go_live"])
def test_ctrl_c_ends_politely_and_the_site_stays(board, monkeypatch, moment):
    """Exit code 130, one word, no traceback, the last good site as it was."""
    before = files_of(board / "output")

    def interrupt(*args, **kwargs):
        raise KeyboardInterrupt

    with monkeypatch.context() as patch:
        patch.setattr(Staging, moment, interrupt)
        done = run(board)
    assert done.exit_code == 130
    assert "Stopped." in done.output and "Traceback" not in done.output
    assert files_of(board / "output") == before
    assert build(board).done


def test_a_file_in_the_place_of_the_state_is_said(tmp_path):
    """.swapboard being a file is a message, not a traceback."""
    board = make(tmp_path, {".swapboard": "mine\n"})
    done = run(board)
    assert done.exit_code == 1 and "Fix: " in done.output
    assert (board / ".swapboard").read_text() == "mine\n"


def test_a_link_in_the_place_of_the_lock_is_not_written_through(tmp_path):
    """The process number goes into the lock, never into another file."""
    precious = tmp_path / "precious"
    precious.write_text("precious")
    board = make(tmp_path / "board")
    (board / ".swapboard").mkdir()
    os.symlink(precious, board / ".swapboard" / "lock")
    assert run(board).exit_code == 1
    assert precious.read_text() == "precious"


def test_a_link_in_the_place_of_the_staging_folder_costs_nobody_files(board, tmp_path):
    """A build cleans its own staging folder and no other."""
    other = tmp_path / "other"
    other.mkdir()
    (other / "thesis.txt").write_text("years of work")
    staged = next((board / ".swapboard").glob("staging-*"), None)
    if staged is None:
        assert build(board).done
        (board / "cards" / "more.md").write_text("Title: More\n")
        staged = next((board / ".swapboard").glob("staging-*"))
    staged.rename(tmp_path / "put away")
    os.symlink(other, staged)
    assert build(board).done
    assert (other / "thesis.txt").read_text() == "years of work"


@pytest.mark.parametrize(
    "kind", ["file", "link", "dangling link", "not empty", "the board", "above", "cards",
             "cards/inner", ".swapboard/inner", "private/inner", "PRIVATE", "long"]
)
def test_an_output_that_is_no_place_for_a_site_is_refused(tmp_path, kind):
    """Nothing of the keeper's is ever replaced, and nothing is built where it would be lost."""
    board = make(tmp_path / "top" / "board", {"notes/x.txt": "x"})
    place = {"the board": board, "above": board.parent, "long": tmp_path / ("x" * 300)}.get(
        kind, board / kind if "/" in kind or kind in ("cards", "PRIVATE") else tmp_path / "place")
    if kind == "file":
        place.write_text("mine")
    elif kind == "link":
        (tmp_path / "real").mkdir()
        os.symlink(tmp_path / "real", place)
    elif kind == "dangling link":
        os.symlink(tmp_path / "nothing", place)
    elif kind == "not empty":
        place.mkdir()
        (place / "mine.txt").write_text("mine")
    before = {p: d for p, d in files_of(tmp_path).items() if "/.swapboard/" not in p}
    built = build(board, output=place)
    assert not built.done
    after = {p: d for p, d in files_of(tmp_path).items() if "/.swapboard/" not in p}
    assert after == before


def test_a_strangers_file_is_kept_even_where_the_record_is_lost(tmp_path):
    """Without .swapboard nobody knows what was built; what this build does not make is kept."""
    board = make(tmp_path)
    assert build(board).done
    (board / "output" / "thesis.txt").write_text("first")
    for content in ("first", "second"):
        (board / "output" / "thesis.txt").write_text(content)
        for record in (board / ".swapboard").rglob("*.json"):
            record.unlink()
        built = build(board)
        assert built.done and "thesis.txt" in str(built.problems[0])
    assert not (board / "output" / "thesis.txt").exists()
    kept = sorted((board / ".swapboard" / "found").rglob("thesis*"))
    assert [file.read_text() for file in kept] == ["first", "second"]


@pytest.mark.parametrize("name", ["addresses.csv", "ADDRESSES.CSV", "more/addresses.tsv"])
@pytest.mark.parametrize("separator", [",", ";", "\t"])
def test_every_table_of_private_things_is_compared(tmp_path, name, separator):
    """As any spreadsheet saves it: the street in a post is found."""
    rows = ["maker,street,town", "ada,47 Gallowglass Terrace,Farholm"]
    table = "\n".join(rows).replace(",", separator)
    board = make(tmp_path, {f"private/{name}": table,
                            "pages/about.md": "Title: About\n\nWrite to 47 Gallowglass Terrace.\n"})
    built = build(board)
    assert not built.done
    assert f"private/{name}:2" in str(built.problems[0])


@pytest.mark.parametrize("content", [b"\xff\xfe\0", b'"never closed' + b"x" * 200_000])
def test_a_private_table_that_cannot_be_read_stops_the_build(tmp_path, content):
    """What cannot be compared with the site may not be left to chance."""
    board = make(tmp_path, {"private/x.csv": b"maker,street\n" + content})
    built = build(board)
    assert not built.done
    assert built.problems[0].path == "private/x.csv"


@pytest.mark.parametrize("epoch", ["99999999999999999999", "-9999999999999", "\u00b2", "1e9", "x",
                                   "253402300799", "-62135596800", " "])
def test_an_odd_source_date_epoch_counts_as_none(tmp_path, monkeypatch, epoch):
    """The build is for today then, and does not fail."""
    from swapboard.site.build import build_board

    monkeypatch.setenv("SOURCE_DATE_EPOCH", epoch)
    assert build_board(make(tmp_path), workers=1).done


@pytest.mark.parametrize("day", ["0001-01-01", "9999-12-31"])
def test_the_first_and_the_last_day_can_be_built(tmp_path, day):
    """No day of the calendar is too early or too late."""
    board = make(tmp_path, {"offers/x.md": "From: keeper\nTo: ada\nGives: heron\nAsks: fog\n"
                                           "2200-12-31: proposed\n"})
    done = CliRunner().invoke(main, ["build", str(board), "--today", day])
    assert done.exit_code == 0, done.output
