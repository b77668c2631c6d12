"""A board's folder is read whole, and what cannot be read is named."""

import os

import pytest

from swapboard.disk.board_folder import LARGEST_TEXT, read_texts


@pytest.fixture
def board(tmp_path):
    for name in ("cards", "calls", "makers", "offers", "pages", "photos"):
        (tmp_path / name).mkdir()
    (tmp_path / "board.toml").write_text("format = 1\n")
    (tmp_path / "cards" / "heron.md").write_text("Title: Heron\n")
    return tmp_path


def test_posts_and_pictures_are_read(board):
    """Texts by path, pictures by name."""
    (board / "photos" / "heron.jpg").write_bytes(b"x")
    (board / "calls" / "lights.people.csv").write_text("maker,cards\n")
    found, problems = read_texts(board)
    assert sorted(found.texts) == ["board.toml", "calls/lights.people.csv", "cards/heron.md"]
    assert found.photos == {"heron.jpg"}
    assert problems == []


def test_a_byte_order_mark_is_no_part_of_the_text(board):
    """Some editors write one; it would hide the first key."""
    (board / "cards" / "heron.md").write_bytes(b"\xef\xbb\xbfTitle: Heron\n")
    assert read_texts(board)[0].texts["cards/heron.md"] == "Title: Heron\n"


def test_a_wrong_encoding_is_named_with_its_line(board):
    """The line of the first byte that is not UTF-8."""
    (board / "cards" / "moth.md").write_bytes(b"Title: Moth\nAlt: caf\xe9\n")
    problem = read_texts(board)[1][0]
    assert (problem.path, problem.line, problem.got) == ("cards/moth.md", 2, "byte 0xe9")


def test_a_huge_post_is_named(board):
    """A post over the cap is refused before it is read whole."""
    (board / "cards" / "big.md").write_bytes(b"a" * (LARGEST_TEXT + 1))
    assert "at most 256 kB" in read_texts(board)[1][0].must


def test_links_that_lead_out_are_refused(board, tmp_path_factory):
    """Neither a post nor a picture is read from outside the board."""
    outside = tmp_path_factory.mktemp("outside") / "secret.md"
    outside.write_text("Title: secret\n")
    os.symlink(outside, board / "cards" / "link.md")
    os.symlink(outside, board / "photos" / "link.jpg")
    found, problems = read_texts(board)
    assert {p.path for p in problems} == {"cards/link.md", "photos/link.jpg"}
    assert "cards/link.md" not in found.texts and "link.jpg" not in found.photos


def test_a_file_that_is_not_read_is_named(board):
    """A card with another ending is never just missing from the board."""
    (board / "cards" / "moth.markdown").write_text("Title: Moth\n")
    (board / "cards" / "old").mkdir()
    (board / "cards" / ".DS_Store").write_text("")
    (board / "cards" / "heron.md~").write_text("")
    problems = read_texts(board)[1]
    assert [(p.path, p.severity) for p in problems] == [
        ("cards/moth.markdown", "warning"), ("cards/old", "warning")
    ]


def test_a_folder_that_is_no_board_is_said_so(tmp_path):
    """One problem, with the command that makes a board."""
    problems = read_texts(tmp_path)[1]
    assert [p.path for p in problems] == ["board.toml"]
    assert "swapboard start" in problems[0].fix


def test_a_pipe_in_place_of_a_post_does_not_hang(board):
    """Only plain files are read."""
    os.mkfifo(board / "cards" / "pipe.md")
    assert [p.path for p in read_texts(board)[1]] == ["cards/pipe.md"]
