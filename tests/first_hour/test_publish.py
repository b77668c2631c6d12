"""`publish` puts the built site, whole, where the keeper wants it."""

import os
import shutil
import zipfile
from pathlib import Path

import pytest

from boards import files_of
from first_hour.hour import DAY, done, swapboard
from swapboard.disk import publish as publishing
from swapboard.disk.lock import board_lock
from swapboard.disk.publish import publish_site
from swapboard.disk.start import start_board


@pytest.fixture(scope="module")
def built(tmp_path_factory) -> Path:
    """A new board, built."""
    board = tmp_path_factory.mktemp("built") / "b"
    assert start_board(board, time_zone="UTC") == []
    done("build", "b", "--today", DAY, folder=board.parent)
    return board


@pytest.fixture
def board(built, tmp_path) -> Path:
    """A copy of it to change."""
    return Path(shutil.copytree(built, tmp_path / "b", copy_function=shutil.copy2))


def publish(board: Path, dest: Path):
    return publish_site(board / "output", dest, board)


def refused(board: Path, dest: Path) -> str:
    """What is said where nothing may be published."""
    published, (problem,) = publish(board, dest)
    assert published is None and problem.fix
    return problem.must


def test_a_folder_gets_the_whole_site(board, tmp_path):
    """What is published is the built site to the byte, new folders above it included."""
    published, problems = publish(board, tmp_path / "new" / "site")
    assert problems == []
    files = files_of(board / "output")
    assert files_of(tmp_path / "new" / "site") == files
    assert (published.files, published.changed) == (len(files) - 1, len(files) - 1)


def test_a_folder_gets_only_what_changed(board, tmp_path):
    """One new post rewrites a few pages; what is gone from the site goes from the folder."""
    dest = tmp_path / "site"
    publish(board, dest)
    assert publish(board, dest)[0].changed == 0
    (board / "pages" / "house-rules.md").unlink()
    (board / "cards" / "moth.md").write_text("Title: Moth\nThemes: night\n")
    done("publish", dest, board, "--today", DAY, folder=tmp_path)
    files = files_of(board / "output")
    assert files_of(dest) == files
    assert "cards/moth.html" in files and "pages/house-rules.html" not in files
    picture = next(name for name in files if name.endswith(".avif"))
    assert publish(board, dest)[0].changed == 0 and (dest / picture).is_file()


def test_a_file_of_the_keepers_is_not_lost(board, tmp_path):
    """What somebody put into the published folder is moved aside and named."""
    dest = tmp_path / "site"
    publish(board, dest)
    (dest / "mine.txt").write_text("mine")
    _, (problem,) = publish(board, dest)
    assert "mine.txt" in problem.path
    assert (board / problem.got).read_text() == "mine"


def test_a_zip_holds_the_whole_site(board, tmp_path):
    """Its names are sorted, index.html lies at the top, and every byte is there."""
    publish(board, tmp_path / "site.zip")
    with zipfile.ZipFile(tmp_path / "site.zip") as archive:
        assert archive.testzip() is None
        names = archive.namelist()
        assert names == sorted(names) and "index.html" in names
        assert {name: archive.read(name) for name in names} == files_of(board / "output")


def test_a_zip_is_the_same_every_time(board, tmp_path):
    """Neither the clock nor a file's own time or rights are in it."""
    publish(board, tmp_path / "one.zip")
    for file in (board / "output").rglob("*"):
        os.utime(file, (1, 1))
    publish(board, tmp_path / "two.ZIP")
    assert (tmp_path / "one.zip").read_bytes() == (tmp_path / "two.ZIP").read_bytes()


def test_a_zip_is_written_whole_or_not_at_all(board, tmp_path, monkeypatch):
    """A disk that fills up leaves the last zip file, and nothing beside it."""
    dest = tmp_path / "zips" / "site.zip"
    publish(board, dest)
    before = dest.read_bytes()

    def full(*_args):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(publishing.os, "replace", full)
    published, (problem,) = publish(board, dest)
    assert published is None and "room" in problem.fix
    assert dest.read_bytes() == before and list(dest.parent.iterdir()) == [dest]


def test_other_files_are_left_alone(board, tmp_path):
    """A folder with files of somebody's and a file that is no site are refused."""
    (tmp_path / "letters").mkdir()
    (tmp_path / "letters" / "a.txt").write_text("dear")
    (tmp_path / "other.zip").write_bytes(b"PK not a site")
    with zipfile.ZipFile(tmp_path / "photos.zip", "w") as archive:
        archive.writestr("a.jpg", b"")
    before = {path: data for path, data in files_of(tmp_path).items() if path[:2] != "b/"}
    assert "no build made" in refused(board, tmp_path / "letters")
    assert "not published" in refused(board, tmp_path / "other.zip")
    assert "not published" in refused(board, tmp_path / "photos.zip")
    assert before == {p: data for p, data in files_of(tmp_path).items() if p[:2] != "b/"}


@pytest.mark.parametrize(
    "place",
    [".", "..", "output", "output/inner", "output/site.zip", "cards", "private", "private/s.zip",
     "photos/site.zip", ".swapboard/site.zip", "board.toml"],
)
def test_the_board_itself_is_no_place_to_publish_to(board, place):
    """Nothing is published over the board, its posts, its private things or the built site."""
    before = files_of(board)
    refused(board, board / place)
    after = files_of(board)
    assert {n for n in after if not n.startswith(".swapboard/")} == {
        n for n in before if not n.startswith(".swapboard/")
    }


def test_a_link_is_not_followed(board, tmp_path):
    """Where a link stands, nothing is written through it."""
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "elsewhere")
    (tmp_path / "link.zip").symlink_to(tmp_path / "elsewhere.zip")
    assert "link" in refused(board, tmp_path / "link")
    assert "link" in refused(board, tmp_path / "link.zip")
    assert not list((tmp_path / "elsewhere").iterdir())
    assert not (tmp_path / "elsewhere.zip").exists()


def test_a_site_changed_by_hand_is_not_published(board, tmp_path):
    """A page that no build made is told of, and building again mends it."""
    (board / "output" / "index.html").write_text("hand")
    assert "changed by hand" in refused(board, tmp_path / "site")
    done("publish", tmp_path / "site", board, "--today", DAY, folder=tmp_path)
    assert (tmp_path / "site" / "index.html").read_bytes() != b"hand"


def test_what_was_never_built_is_not_published(board, tmp_path):
    """With --no-build and no built site the message says how to build one."""
    shutil.rmtree(board / "output")
    ran = swapboard("publish", tmp_path / "s.zip", board, "--no-build", folder=tmp_path)
    assert ran.returncode == 1 and "swapboard build" in ran.stderr
    assert not (tmp_path / "s.zip").exists()


def test_a_broken_board_leaves_what_was_published(board, tmp_path):
    """With an error in a post nothing is published, and the last copy stays."""
    done("publish", tmp_path / "s", board, "--today", DAY, folder=tmp_path)
    before = files_of(tmp_path / "s")
    (board / "cards" / "bad.md").write_text("Title: Bad\nDate: soon\n")
    ran = swapboard("publish", tmp_path / "s", board, folder=tmp_path)
    assert ran.returncode == 1 and "cards/bad.md:2" in ran.stderr
    assert files_of(tmp_path / "s") == before
    kept = swapboard("publish", tmp_path / "s", board, "--set-aside", folder=tmp_path)
    assert kept.returncode == 0 and "set aside: cards/bad.md" in kept.stderr


def test_a_board_at_work_is_not_published(board, tmp_path):
    """While another run holds the board the message says so."""
    with board_lock(board / ".swapboard"):
        assert "another run" in refused(board, tmp_path / "s")


def test_a_folder_that_is_no_board_is_told(tmp_path):
    """Without board.toml nothing is made, not even a folder for locks."""
    ran = swapboard("publish", "s.zip", ".", "--no-build", folder=tmp_path)
    assert ran.returncode == 1 and "board.toml" in ran.stderr
    assert list(tmp_path.iterdir()) == []


def test_it_is_said_what_to_do_next(board, tmp_path):
    """After a folder: upload what is in it. After a zip: upload the file."""
    assert "what is in this folder" in done(
        "publish", tmp_path / "s", board, "--no-build", folder=tmp_path)
    assert "upload this file" in done(
        "publish", tmp_path / "s.zip", board, "--no-build", folder=tmp_path)
