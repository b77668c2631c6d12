"""The staged site gets only the differences, and goes live whole."""

import contextlib
import hashlib
import os
import shutil
import sys
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from swapboard.disk import exchange, site_tree
from swapboard.disk import staging as staging_module
from swapboard.disk.staging import Staging, refuse_foreign_folder


def publish(board, files, made=None, live_at=None):
    """One build of `files` ({path: text}); `made` collects what had to be made."""
    with Staging(live_at or board / "output", board / ".swapboard") as staging:
        for path, text in files.items():

            def make(path=path, text=text):
                if made is not None:
                    made.append(path)
                return text.encode()

            staging.put(path, hashlib.sha256(text.encode()).hexdigest(), make)
        staging.finish()
        problems = staging.go_live()
    return staging, problems


def live(board, live_at=None):
    out = live_at or board / "output"
    return {
        p: (out / p).read_text() for p in site_tree.files_in(out) if p != site_tree.VERSION_FILE
    }


def test_unchanged_files_are_not_made_again(tmp_path):
    """A second and a third build make only what changed, in either twin."""
    made: list[str] = []
    publish(tmp_path, {"a.html": "a", "b/c.html": "c"}, made)
    assert sorted(made) == ["a.html", "b/c.html"]
    for text, expected in (("a2", ["a.html"]), ("a2", []), ("a3", ["a.html"]), ("a3", [])):
        made.clear()
        publish(tmp_path, {"a.html": text, "b/c.html": "c"}, made)
        assert made == expected
        assert live(tmp_path) == {"a.html": text, "b/c.html": "c"}


def test_files_no_longer_made_are_removed(tmp_path):
    """What a build does not put is not in the site, nor are its empty folders."""
    publish(tmp_path, {"a.html": "a", "deep/er/b.html": "b"})
    publish(tmp_path, {"a.html": "a"})
    assert live(tmp_path) == {"a.html": "a"}
    assert not (tmp_path / "output" / "deep").exists()


def test_site_names_itself_by_its_contents(tmp_path):
    """version.txt is the SHA-256 of what is there, checked by reading every byte."""
    publish(tmp_path, {"a.html": "a", "b.html": "b"})
    out = tmp_path / "output"
    assert site_tree.version_named_in(out) == site_tree.version_found_in(out)
    (out / "a.html").write_text("x")
    assert site_tree.version_named_in(out) != site_tree.version_found_in(out)


def test_version_follows_its_definition(tmp_path):
    """Recomputed from the definition with hashlib alone (FIPS 180-4 SHA-256)."""
    publish(tmp_path, {"a.html": "abc"})
    # FIPS 180-4 example: SHA-256("abc")
    abc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    expected = hashlib.sha256(f"a.html\0{abc}\n".encode()).hexdigest()
    assert site_tree.version_named_in(tmp_path / "output") == expected


def test_a_page_touched_by_hand_is_put_right(tmp_path):
    """A file of the live site that somebody edited is as built after the next build."""
    publish(tmp_path, {"a.html": "a", "b.html": "b"})
    (tmp_path / "output" / "a.html").write_text("defaced")
    publish(tmp_path, {"a.html": "a", "b.html": "b"})
    assert live(tmp_path) == {"a.html": "a", "b.html": "b"}


def test_a_stranger_in_the_site_is_kept_and_named(tmp_path):
    """A file that no build made is moved to .swapboard/found and named, never lost."""
    publish(tmp_path, {"a.html": "a"})
    (tmp_path / "output" / "notes.txt").write_text("mine")
    _, problems = publish(tmp_path, {"a.html": "a2"})
    assert [p.path for p in problems] == ["output/notes.txt"]
    assert (tmp_path / ".swapboard" / "found" / "notes.txt").read_text() == "mine"
    assert live(tmp_path) == {"a.html": "a2"}


def test_the_same_path_twice_is_refused(tmp_path):
    """Two pages for one path is a fault of ours, found before anything goes live."""
    staging = Staging(tmp_path / "output", tmp_path / ".swapboard")
    staging.put("a.html", "1", lambda: b"a")
    with pytest.raises(ValueError, match="twice"):
        staging.put("a.html", "2", lambda: b"b")


def test_an_unfinished_site_never_counts_as_whole(tmp_path):
    """A run that ends before finish leaves the live site, and the next run is right."""
    publish(tmp_path, {"a.html": "a", "b.html": "b"})
    staging = Staging(tmp_path / "output", tmp_path / ".swapboard")
    staging.put("a.html", "new", lambda: b"half")
    assert site_tree.version_named_in(staging.folder) is None
    assert live(tmp_path) == {"a.html": "a", "b.html": "b"}
    publish(tmp_path, {"a.html": "a", "b.html": "b2"})
    assert live(tmp_path) == {"a.html": "a", "b.html": "b2"}


def test_a_copied_board_builds_right(tmp_path):
    """Records are bound to their tree: a copy of a board does not trust them."""
    first = tmp_path / "one"
    first.mkdir()
    publish(first, {"a.html": "a", "b.html": "b"})
    shutil.copytree(first, tmp_path / "two")
    (tmp_path / "two" / "output" / "b.html").write_text("x")
    publish(tmp_path / "two", {"a.html": "a", "b.html": "b"})
    assert live(tmp_path / "two") == {"a.html": "a", "b.html": "b"}


@pytest.fixture
def web(tmp_path, monkeypatch):
    """Where a site is to go live, on a disk that is not the board's."""
    monkeypatch.setattr(staging_module, "_share_a_disk", lambda folder, other: False)
    return tmp_path / "web"


def test_on_another_disk_only_the_site_is_left(tmp_path, web):
    """Beside a site on another disk nothing lies after it went live, and the next one still
    makes only what changed."""
    board, made = tmp_path / "board", []
    for text in ("a", "a2", "a2"):
        made.clear()
        publish(board, {"a.html": text, "b/c.html": "c"}, made, web / "site")
        assert live(board, web / "site") == {"a.html": text, "b/c.html": "c"}
        assert [file.name for file in web.iterdir()] == ["site"]
    assert made == []


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="/dev/shm is Linux's own")
def test_on_a_disk_in_memory_only_the_site_is_left(tmp_path):
    """The same without make-believe: between two real disks."""
    with tempfile.TemporaryDirectory(dir="/dev/shm") as web:
        for text in ("a", "a2"):
            publish(tmp_path, {"a.html": text, "b.html": "b"}, None, Path(web) / "site")
            assert live(tmp_path, Path(web) / "site") == {"a.html": text, "b.html": "b"}
            assert os.listdir(web) == ["site"]


@pytest.mark.parametrize("what", [OSError, KeyboardInterrupt])
def test_a_run_that_fails_leaves_nothing_on_another_disk(tmp_path, web, what):
    """A full disk or Ctrl-C midway: the last site stays, and nothing beside it."""
    board = tmp_path / "board"
    publish(board, {"a.html": "a"}, None, web / "site")

    def fail():
        raise what

    with pytest.raises(what), Staging(web / "site", board / ".swapboard") as staging:
        staging.put("b.html", "b", lambda: b"b")
        staging.put("a.html", "new", fail)
    assert live(board, web / "site") == {"a.html": "a"}
    assert [file.name for file in web.iterdir()] == ["site"]


@pytest.mark.parametrize("steps", [0, 1, 2, 3])
def test_cut_off_between_renames_another_disk_has_one_whole_site(
    tmp_path, web, monkeypatch, steps
):
    """Where two folders cannot change places in one call, Ctrl-C after any rename leaves one
    whole site and nothing beside it."""
    board, done, real = tmp_path / "board", [], exchange.os.rename
    publish(board, {"a.html": "a"}, None, web / "site")

    def rename(source, target):
        if len(done) == steps:
            done.append("Ctrl-C")
            raise KeyboardInterrupt
        done.append(target)
        real(source, target)

    monkeypatch.setattr(exchange, "_renameat2", lambda new, live: False)
    monkeypatch.setattr(exchange.os, "rename", rename)
    with contextlib.suppress(KeyboardInterrupt):
        publish(board, {"a.html": "a2"}, None, web / "site")
    assert live(board, web / "site") == {"a.html": "a" if steps == 0 else "a2"}
    assert [file.name for file in web.iterdir()] == ["site"]


def test_an_output_of_somebody_else_is_refused(tmp_path):
    """A folder that holds files no build made is never replaced."""
    (tmp_path / "output").mkdir()
    (tmp_path / "output" / "thesis.txt").write_text("years of work")
    problem = refuse_foreign_folder(tmp_path / "output", tmp_path)
    assert problem and "no build made" in problem.must
    for dangerous in (tmp_path, tmp_path.parent):
        assert refuse_foreign_folder(dangerous, tmp_path)
    (tmp_path / "cards").mkdir()
    assert refuse_foreign_folder(tmp_path / "cards", tmp_path)
    assert refuse_foreign_folder(tmp_path / "elsewhere", tmp_path) is None


names = st.sampled_from(["a.html", "b.html", "c/d.html", "c/e.html", "c.html", "f/g/h.txt"])
sites = st.dictionaries(names, st.sampled_from(["1", "2", "3"]), max_size=6)


@settings(max_examples=40, deadline=None)
@given(st.lists(sites, min_size=1, max_size=6))
def test_any_history_ends_like_a_clean_build(tmp_path_factory, history):
    """Whatever was built before, the live site is the last one asked for."""
    board = tmp_path_factory.mktemp("board")
    for files in history:
        publish(board, files)
        assert live(board) == files
        out = board / "output"
        assert site_tree.version_named_in(out) == site_tree.version_found_in(out)


@settings(max_examples=20, deadline=None)
@given(st.lists(st.sampled_from(["a", "a/b"]), min_size=2, max_size=5))
def test_a_file_may_become_a_folder_and_back(tmp_path_factory, history):
    """A path that was a file may be a folder in the next build."""
    board = tmp_path_factory.mktemp("board")
    for path in history:
        publish(board, {path: path})
        assert live(board) == {path: path}
