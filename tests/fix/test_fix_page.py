"""The page that puts corners right: what is on it, and what is written for it."""

import json
import os
import shutil
from dataclasses import replace
from pathlib import Path

import html5lib
import numpy as np
import pytest
from click.testing import CliRunner
from PIL import Image

from fix.fix_board import SHARP, SHARP_FILE, card_on_table, write_board
from swapboard.cli import main
from swapboard.photo.find import Found
from swapboard.site.fix_page import write_fix_page
from swapboard.views.fix_page import Asked, Crop, corner_line, crops_in, in_order

SQUARE = ((10.0, 20.0), (60.0, 20.0), (60.0, 90.0), (10.0, 90.0))
SURE = Found(SQUARE, 1.4, "card", 0.9, False, ())


@pytest.fixture(scope="module")
def cut_board(tmp_path_factory) -> Path:
    """A board whose page has been written once."""
    board = write_board(tmp_path_factory.mktemp("fix") / "board")
    write_fix_page(board)
    return board


@pytest.fixture
def board(cut_board, tmp_path) -> Path:
    """A copy of it to change, its photo cache and all, without the page."""
    shutil.copytree(cut_board, tmp_path / "board")
    shutil.rmtree(tmp_path / "board" / ".swapboard" / "fix")
    return tmp_path / "board"


def data_of(page: Path) -> dict:
    """The data that the page's scripts are given."""
    text = (page.parent / "data.js").read_text("ascii")
    return json.loads(text.removeprefix("swapboardFix(").removesuffix(");\n"))


def said_by(page: Path) -> str:
    """All text of the page, spaces collapsed; it must parse without an error."""
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    tree = parser.parse(page.read_text("utf-8"))
    return " ".join("".join(tree.find("body").itertext()).split())


def crop(**changes) -> Crop:
    """A crop that nobody doubts."""
    made = Crop("cards/a.md", "A", "front", "photos/a.jpg", (100, 120), SQUARE, 1, False, (), "")
    return replace(made, **changes)


def test_doubtful_crops_come_first(board):
    """Doubtful crops lead, those of posts before those that no post asks for."""
    page, problems = write_fix_page(board)
    assert problems == []
    cards = data_of(page)["cards"]
    told = [(card["post"], card["doubtful"]) for card in cards]
    assert told == [
        ("cards/tram.md", True), ("cards/moth.md", True), ("cards/fern.md", False), ("", False),
    ]  # fmt: skip
    assert cards[3]["at"] == "69% 44%"
    assert [crop(post="b", doubtful=True), crop()] == list(
        in_order([crop(), crop(post="b", doubtful=True)])
    )


def test_without_scripts_the_page_lists_what_is_doubtful(board):
    """The page's own text names each doubtful crop, why, its post and its corners."""
    page, _ = write_fix_page(board)
    said = said_by(page)
    assert "2 crops of 4 should be looked at" in said
    assert f"Moth {SHARP} cards/moth.md, photos/smooth.png at 50% 50% no card found" in said
    # The largest 5:7 upright in 700 × 750 px: 750 · 5/7 = 535.7 wide, its middle at 350.
    assert "Cut out at: 82.1 0.0, 617.9 0.0, 617.9 750.0, 82.1 750.0" in said


def test_names_and_titles_are_text(board):
    """Markup in a title or a file's name is shown as it is written, never obeyed."""
    page, _ = write_fix_page(board)
    assert f"photos/{SHARP_FILE}" in said_by(page)
    assert "<img src=x" not in page.read_text("utf-8")
    assert any(photo["file"] == f"photos/{SHARP_FILE}" for photo in data_of(page)["photos"])
    data = (page.parent / "data.js").read_bytes()
    assert data.isascii() and data.count(b"\n") == 1


def test_copies_are_upright_small_and_bare(board):
    """A photo's copy is turned upright, at most 2000 px long, and holds no metadata."""
    wide = np.zeros((1800, 2400, 3), np.uint8)
    wide[:, :1200] = (200, 40, 40)
    exif = Image.Exif()
    exif[0x0112] = 6  # Exif 2.32: row 0 is the right side, so the stored left comes to the top
    exif[0x010E] = "12 Harbour Street"
    Image.fromarray(wide).save(board / "photos" / "smooth.png", exif=exif)
    page, _ = write_fix_page(board)
    photo = next(p for p in data_of(page)["photos"] if p["file"] == "photos/smooth.png")
    assert photo["size"] == [1800, 2400] and photo["copySize"] == [1500, 2000]
    with Image.open(page.parent / "photos" / f"{photo['copy']}.jpg") as copy:
        assert copy.size == (1500, 2000) and copy.format == "JPEG"
        assert not copy.getexif() and not {"exif", "icc_profile", "comment"} & set(copy.info)
        assert copy.getpixel((750, 100))[0] > 150 > copy.getpixel((750, 1900))[0]


def test_copies_are_kept_until_their_photo_changes(board):
    """A second run writes no copy anew; a changed photo's old copy goes."""
    page, _ = write_fix_page(board)
    before = {file: file.stat().st_ino for file in (page.parent / "photos").iterdir()}
    write_fix_page(board)
    assert {file: file.stat().st_ino for file in (page.parent / "photos").iterdir()} == before
    Image.fromarray(card_on_table((300, 100))).save(board / "photos" / "two.png")
    write_fix_page(board)
    after = set((page.parent / "photos").iterdir())
    assert len(after) == len(before) and len(after & set(before)) == len(before) - 2


def test_what_cannot_be_shown_is_named(board):
    """A broken photo, a missing one and a post with an error stand on the page with why."""
    (board / "photos" / "broken.jpg").write_bytes(b"\xff\xd8\xff\xe0 no more")
    for name, photo in (("owl", "broken.jpg"), ("hen", "none.jpg"), ("fog", "two.png at x%")):
        (board / "cards" / f"{name}.md").write_text(f"Title: {name}\nPhoto: {photo}\nAlt: x\n")
    page, _ = write_fix_page(board)
    said = said_by(page)
    assert "photos/broken.jpg: must be" in said
    assert "cards/hen.md: must be a picture in photos/" in said
    assert "cards/fog.md: must be a file, or a file at two percentages" in said
    assert "cards/owl.md" not in [card["post"] for card in data_of(page)["cards"]]


def test_a_post_that_points_beside_all_cards_is_doubtful(board):
    """Where a post names a point without a card, a rectangle to start from is shown, and why."""
    post = board / "cards" / "fern.md"
    post.write_text(post.read_text().replace("25% 43%", "50% 95%"))
    page, _ = write_fix_page(board)
    fern = next(card for card in data_of(page)["cards"] if card["post"] == "cards/fern.md")
    assert fern["doubtful"] and "under the point" in fern["reasons"][0]
    # The largest 7:5 in 800 × 600 px: 800 · 5/7 = 571.4 high, its middle at 300.
    assert np.abs(np.array(fern["corners"][0]) - (0, 14.286)).max() < 0.01


def test_photos_beyond_many_without_doubt_are_left_out_and_counted(board):
    """Of photos without doubt only so many are copied; the page counts the rest."""
    page, _ = write_fix_page(board, most_sure_photos=0)
    assert len(data_of(page)["photos"]) == 2
    assert "1 more photo without a crop in doubt is left out here" in said_by(page)


def test_a_card_that_a_post_has_is_not_shown_twice():
    """A found card is its post's, though the keeper moved its corners a little."""
    moved = tuple((x + 3, y + 2) for x, y in SQUARE)
    asked = Asked("cards/a.md", "A", "front", 1, replace(SURE, corners=moved))
    assert [one.post for one in crops_in("photos/a.jpg", (100, 120), [SURE], [asked])] == [
        "cards/a.md"
    ]
    assert [one.post for one in crops_in("photos/a.jpg", (100, 120), [SURE], [])] == [""]


def test_the_line_keeps_to_the_frame():
    """Corners beyond the frame are written on it, since a post refuses numbers below 0."""
    beyond = crop(corners=((-4.26, 20.0), (60.04, 20.06), (130.0, 121.0), (10.0, 90.0)))
    assert corner_line(beyond) == "Cut out at: 0.0 20.0, 60.0 20.1, 100.0 120.0, 10.0 90.0"


def test_the_page_never_leaves_the_board(board, tmp_path):
    """A link in the page's place that leads out of the board is refused, nothing written."""
    (tmp_path / "elsewhere").mkdir()
    os.symlink(tmp_path / "elsewhere", board / ".swapboard" / "fix")
    page, (problem,) = write_fix_page(board)
    assert page is None and problem.path == ".swapboard/fix"
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_the_command_says_where_the_page_is(board):
    """`photos` on a board ends with the page's path; with --json there is JSON alone."""
    done = CliRunner().invoke(main, ["photos", str(board)])
    page = board / ".swapboard" / "fix" / "index.html"
    assert done.output.endswith(f"To put corners right: {page}\n") and page.is_file()
    told = CliRunner().invoke(main, ["photos", "--json", str(board)])
    assert json.loads(told.stdout)["version"] == 1


def test_a_board_without_cards_gets_no_page(tmp_path):
    """Where no post has a photo there is nothing to put right."""
    (tmp_path / "board.toml").write_text('format = 1\n[board]\nname = "Bare"\n')
    assert write_fix_page(tmp_path) == (None, [])
    assert not (tmp_path / ".swapboard" / "fix").exists()
