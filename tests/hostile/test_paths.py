"""No field and no link of a board leads out of it."""

import os

import pytest

from boards import files_of
from hostile.small_board import build, errors_of, make

SECRET = b"\xff\xd8 the secret of another folder"
TRICKS = [
    "../../etc/passwd", "../secret.jpg", "/etc/passwd", "a/../../secret.jpg", "%2e%2e/secret.jpg",
    "..%2fsecret.jpg", "..\\secret.jpg", "C:\\secret.jpg", "file:///etc/passwd", "./../secret.jpg",
    "photos/../../secret.jpg", "....//secret.jpg", "/dev/zero", "/proc/self/environ", "~/x.jpg",
    "\u2025/secret.jpg", "..\u2215secret.jpg", "secret.jpg\u202egpj.", "http://127.0.0.1/x.jpg",
    "private/addresses.csv", "../private/addresses.csv", ".", "..", "con", "x" * 3000,
]  # fmt: skip


@pytest.mark.parametrize("field", ["Photo", "Back"])
@pytest.mark.parametrize("trick", TRICKS)
def test_a_path_that_leads_elsewhere_is_an_error_with_its_line(tmp_path, field, trick):
    """Whatever a photo's name looks like, only a file of photos/ is ever read."""
    (tmp_path / "secret.jpg").write_bytes(SECRET)
    board = make(tmp_path / "board", {"cards/heron.md": f"Title: Heron\n{field}: {trick}\n"})
    make(board, {"private/addresses.csv": "maker,street\n"})
    built = build(board)
    assert not built.done
    assert [e for e in errors_of(built) if e.startswith("cards/heron.md:2: ")], built.problems
    assert not (board / "output").exists()


def test_a_nul_in_a_path_is_an_error(tmp_path):
    """A zero byte ends no path early."""
    board = make(tmp_path, {"cards/heron.md": "Title: Heron\nPhoto: a.jpg\0.png\n"})
    told = errors_of(build(board))
    assert any(e.startswith("cards/heron.md:2: ") for e in told)


def link(target, place):
    place.parent.mkdir(parents=True, exist_ok=True)
    os.symlink(target, place)


@pytest.mark.parametrize(
    "place", ["cards/x.md", "pages/x.md", "calls/x.people.csv", "photos/x.jpg", "photos/in/x.jpg"]
)
@pytest.mark.parametrize("target", ["/dev/zero", "/etc/passwd", "{outside}", "missing", "loop"])
def test_a_link_out_of_the_board_is_never_followed(tmp_path, place, target):
    """A link out of the board, to a device or to nothing, is named and not read."""
    outside = tmp_path / "outside.md"
    outside.write_bytes(b"Title: Outside\n\n" + SECRET)
    board = make(tmp_path / "board")
    goal = {"{outside}": outside, "loop": board / place}.get(target, target)
    link(goal, board / place)
    make(board, {"cards/heron.md": f"Title: Heron\nPhoto: {place.removeprefix('photos/')}\n"})
    built = build(board)
    assert not built.done
    told = " ".join(errors_of(built))
    assert place in told or "cards/heron.md:2" in told
    assert "secret" not in told


def test_a_whole_folder_that_is_a_link_out_is_not_read(tmp_path):
    """Posts come from the board alone, even where cards/ is a link."""
    elsewhere = tmp_path / "elsewhere"
    make(elsewhere)
    board = make(tmp_path / "board")
    for file in (board / "cards").iterdir():
        file.unlink()
    (board / "cards").rmdir()
    link(elsewhere / "cards", board / "cards")
    assert {e.split(":")[0] for e in errors_of(build(board))} >= {"cards/heron.md", "cards/fog.md"}


@pytest.mark.parametrize("place", ["cards/x.md", "photos/x.jpg", "private/x.csv"])
def test_a_pipe_does_not_keep_the_build_waiting(tmp_path, place):
    """A pipe is no file: it is named, and nobody waits for what comes out of it."""
    board = make(tmp_path, {"cards/heron.md": "Title: Heron\nPhoto: x.jpg\n"})
    (board / place).parent.mkdir(exist_ok=True)
    os.mkfifo(board / place)
    assert any(place in error for error in errors_of(build(board)))


@pytest.mark.parametrize("folder", ["cards", "makers", "calls", "offers", "pages", "photos"])
def test_a_file_in_a_folders_place_is_named(tmp_path, folder):
    """A file called cards hides no cards silently."""
    board = make(tmp_path)
    for file in (board / folder).glob("*"):
        file.unlink()
    if (board / folder).is_dir():
        (board / folder).rmdir()
    (board / folder).write_text("not a folder")
    assert any(e.startswith(f"{folder}: must be a folder") for e in errors_of(build(board)))


def test_links_inside_the_board_are_fine(tmp_path):
    """A link from one post to another file of the board is an ordinary file."""
    board = make(tmp_path, {"texts/words.md": "Title: Words\n"})
    link("../texts/words.md", board / "pages" / "words.md")
    assert build(board).done
    assert "pages/words.html" in files_of(board / "output")
