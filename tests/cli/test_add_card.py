"""`swapboard add card`: from a picture to a post that builds."""

import os
import shutil

import numpy as np
import pytest
from click.testing import CliRunner
from PIL import Image

from boards import DEMO, files_of
from hostile.small_board import make
from swapboard.cli import main
from swapboard.disk.check import check_board

pytestmark = pytest.mark.usefixtures("looked_at_once")

ONE, THREE, HEIC = "two-boats.jpg", "three-by-halvard.jpg", "estuary.heic"


def add(board, *pictures, maker=""):
    more = ["--maker", maker] if maker else []
    named = [str(picture) for picture in pictures]
    return CliRunner().invoke(main, ["add", "card", *named, "--board", str(board), *more])


def errors_in(board):
    return [str(p) for p in check_board(board, workers=1) if p.severity == "error"]


def small_photo():
    """A pale card on a dark table: uint8 [400, 300, 3]."""
    pixels = np.full((400, 300, 3), 50, np.uint8)
    pixels[60:-60, 60:-60] = 235
    pixels[120:200, 100:180] = (200, 40, 40)
    return pixels


@pytest.fixture
def board(tmp_path):
    return make(tmp_path / "board")


@pytest.fixture
def small(tmp_path):
    """A small picture of one card, two-boats.png."""
    file = tmp_path / "two-boats.png"
    Image.fromarray(small_photo()).save(file)
    return file


@pytest.mark.parametrize("photo", [ONE, HEIC])
def test_one_card_is_one_post_that_builds(board, photo):
    """The post names its photo, and the board has no error after it."""
    done = add(board, DEMO / "photos" / photo)
    assert done.exit_code == 0, done.output
    stem = photo.partition(".")[0]
    assert (board / "cards" / f"{stem}.md").read_text() == (
        f"Title: {stem.replace('-', ' ').capitalize()}\nPhoto: {stem}.jpg\n"
    )
    assert done.stdout.startswith(f"cards/{stem}.md: one card")
    assert errors_in(board) == []


def test_several_cards_are_several_posts(board):
    """Each is bound to its own place in the one photo, in reading order."""
    done = add(board, DEMO / "photos" / THREE, maker="ada")
    assert done.exit_code == 0, done.output
    posts = sorted((board / "cards").glob("three-by-halvard-*.md"))
    assert len(posts) == 3
    texts = [post.read_text() for post in posts]
    assert all("Maker: ada\n" in text for text in texts)
    assert len({text.split("Photo: ")[1] for text in texts}) == 3
    assert all("three-by-halvard.jpg at " in text for text in texts)
    assert errors_in(board) == []


def test_what_is_there_is_never_overwritten(board, small):
    """The same picture again gets the next free name, and so does another of that name."""
    for _ in range(2):
        assert add(board, small).exit_code == 0
    (board / "cards" / "Two-B\u00f6ats-3.md").write_text("Title: Mine\n")
    before = files_of(board)
    assert add(board, small).exit_code == 0
    after = files_of(board)
    assert {path: after[path] for path in before if path in after} == before
    new = sorted(path for path in after if path not in before and not path.startswith("."))
    assert new == ["cards/two-boats-4.md", "photos/two-boats-4.png"]


def test_a_picture_that_cannot_be_used_is_named_and_the_others_are_added(board, small, tmp_path):
    """Exit code 1, and the good one is there."""
    bad = tmp_path / "bad.jpg"
    bad.write_bytes((DEMO / "photos" / ONE).read_bytes()[:5000])
    done = add(board, tmp_path / "missing.jpg", bad, tmp_path, small)
    assert done.exit_code == 2  # a folder is no picture, which the call itself says
    done = add(board, tmp_path / "missing.jpg", bad, small)
    assert done.exit_code == 1
    assert "missing.jpg: must be a file that is there" in done.stderr
    assert f"{bad}: must be" in done.stderr
    assert (board / "cards" / "two-boats.md").is_file()
    assert sorted(p.name for p in (board / "photos").iterdir()) == ["two-boats.png"]


@pytest.mark.parametrize("maker", ["ADA", "Ada"])
def test_a_maker_is_known_whatever_the_case(board, small, maker):
    """--maker takes the name as people say it and writes it as the file has it."""
    assert add(board, small, maker=maker).exit_code == 0
    assert "Maker: ada\n" in (board / "cards" / "two-boats.md").read_text()


def test_an_unknown_maker_is_told_and_nothing_is_written(board, small):
    """With the nearest name there is."""
    before = files_of(board)
    done = add(board, small, maker="adda")
    assert done.exit_code == 1
    assert 'did you mean "ada"?' in done.output
    assert files_of(board) == before


@pytest.mark.parametrize(
    "name", ["CON.jpg", "....jpg", "\U0001f98a.jpg", "a b (1).JPG", "-.jpg", "x" * 200 + ".jpg",
             "<script>.jpg", "{{7}}.jpg", "aux.tar.jpg", "Caf\u00e9 \u4e2d\u6587.jpg", b"\xff.jpg"]
)
def test_any_file_name_becomes_a_fit_one(board, tmp_path, name):
    """Whatever the picture was called, the post and the photo have names without a fault."""
    picture = os.path.join(os.fsencode(tmp_path), os.fsencode(name))
    Image.fromarray(small_photo()).save(tmp_path / "small.jpg")
    shutil.move(tmp_path / "small.jpg", picture)
    done = add(board, os.fsdecode(picture))
    assert done.exit_code == 0, done.output
    assert errors_in(board) == []


def test_what_is_clear_in_a_picture_is_stored_on_white_paper(board, tmp_path):
    """A clear WebP and a sixteen-bit TIFF are stored as they are seen, not black or blank."""
    clear = np.zeros((400, 300, 4), np.uint8)
    clear[80:320, 60:240] = (200, 30, 30, 255)
    Image.fromarray(clear).save(tmp_path / "clear.webp", lossless=True)
    deep = np.full((400, 300), 20_000, np.uint16)
    deep[80:320, 60:240] = 60_000
    Image.fromarray(deep).save(tmp_path / "deep.tif")
    assert add(board, tmp_path / "clear.webp", tmp_path / "deep.tif").exit_code == 0
    with Image.open(board / "photos" / "clear.jpg") as image:
        assert min(image.convert("RGB").getpixel((5, 5))) > 245
    with Image.open(board / "photos" / "deep.jpg") as image:
        # 20,000 and 60,000 of 65,535, in eight bits
        assert abs(image.convert("L").getpixel((5, 5)) - 78) <= 3
        assert abs(image.convert("L").getpixel((150, 200)) - 233) <= 3


def test_without_a_board_nothing_is_written(tmp_path):
    """One message, exit code 1, an empty folder."""
    done = add(tmp_path, DEMO / "photos" / ONE)
    assert done.exit_code == 1 and "swapboard start" in done.output
    assert not any(tmp_path.iterdir())
