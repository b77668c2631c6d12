"""The demo board: its art, its photographs, what is known of them, and its posts."""

import ast
import json
import re
import sys
from datetime import date
from pathlib import Path

import numpy as np
import pytest

from studio.camera import View, homography, placed, projected
from studio.files import face_of, render, seed_of, truth
from studio.hands.collage import Collage
from studio.lettering import STROKES, lettered
from studio.photograph import corners_of, edge_mask
from studio.pictures import PICTURES
from studio.scenes import SCENES, STARTER
from studio.sleeve import page_outline

DEMO = Path(__file__).resolve().parents[2] / "site_demo"
STARTER_BOARD = DEMO.parent / "content"
DAY = date(2026, 10, 10)
BY_FILE = {scene.file: scene for scene in SCENES}


def stored(path: Path) -> np.ndarray:
    """A photograph as a viewer shows it: upright, uint8 [height, width, 3]."""
    import pillow_heif
    from PIL import Image, ImageOps

    pillow_heif.register_heif_opener()
    with Image.open(path) as image:
        return np.asarray(ImageOps.exif_transpose(image).convert("RGB"))


def texts_of(board: Path) -> dict[str, str]:
    """A board's posts by their path, as the records floor takes them."""
    folders = ("cards", "makers", "calls", "offers", "pages")
    files = [file for part in folders for file in (board / part).iterdir() if file.suffix]
    files.append(board / "board.toml")
    return {file.relative_to(board).as_posix(): file.read_text(encoding="utf-8") for file in files}


def header_of(post: Path) -> str:
    """The lines of a post before its first empty line."""
    return post.read_text(encoding="utf-8").split("\n\n", 1)[0]


def area(points) -> float:
    """The signed area of a polygon (the shoelace formula); above 0 is clockwise, y down."""
    x, y = np.asarray(points, float).T
    return float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2


@pytest.mark.parametrize("file", ["river-fox.png", "night-heron-back.jpg", "dyke-wide.jpg"])
def test_a_photograph_drawn_again_is_the_one_that_is_stored(file):
    """The committed code and seed draw the committed photograph, but for its compression."""
    drawn, kept = render(BY_FILE[file]), stored(DEMO / "photos" / file)
    assert drawn.shape == kept.shape
    assert np.abs(drawn.astype(int) - kept).mean() < 4.0


def test_the_stored_photographs_are_those_of_the_scenes():
    """Every scene has its photograph of the right size, and there is no other file."""
    assert {file.name for file in (DEMO / "photos").iterdir()} == set(BY_FILE)
    for name, scene in BY_FILE.items():
        width, height = scene.view.size
        assert stored(DEMO / "photos" / name).shape == (height, width, 3)
    height, width = stored(STARTER_BOARD / "photos" / STARTER.file).shape[:2]
    assert (width, height) == STARTER.view.size


def test_the_photographs_are_light_enough_for_a_clone():
    """All photographs of the demo together stay under 13 MB."""
    assert sum(file.stat().st_size for file in (DEMO / "photos").iterdir()) < 13_000_000


def test_the_stored_corners_are_those_of_the_cameras():
    """truth.json says what the scenes' homographies say."""
    assert json.loads((DEMO / "truth.json").read_text(encoding="utf-8")) == truth()


@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.file)
def test_no_card_lies_upside_down_mirrored_or_out_of_the_picture(scene):
    """Corners run clockwise from a top left that is at the top left, inside the picture."""
    width, height = scene.view.size
    for _, corners in corners_of(scene):
        assert area(corners) > 0.04 * width * height
        across, down = corners[1] - corners[0], corners[3] - corners[0]
        assert across[0] > abs(across[1]) and down[1] > abs(down[0])
        assert corners.min() >= 0 and (corners <= (width, height)).all()


@pytest.mark.parametrize("scene", [one for one in SCENES if not one.scan], ids=lambda one: one.file)
def test_every_view_is_that_of_a_real_camera(scene):
    """The homography is K [r1 r2 t]: its inner columns are orthogonal and of one length.

    Zhang, "A flexible new technique for camera calibration" (2000), equations 3 and 4.
    """
    assert scene.view.tilt <= 20
    width, height = scene.view.size
    focal = scene.view.lens / 43.27 * np.hypot(width, height)
    inner = np.array([[focal, 0, width / 2], [0, focal, height / 2], [0, 0, 1]])
    first, second = (np.linalg.inv(inner) @ homography(scene.view))[:, :2].T
    assert abs(first @ second) < 1e-9 * (first @ first)
    assert first @ first == pytest.approx(second @ second, rel=1e-9)


def test_what_is_farther_away_is_smaller():
    """A camera tilted towards the far side of the table shows a card's far edge shorter."""
    top_left, top_right, right, left = projected(
        homography(View(tilt=15.0)) @ placed((750, 1050), (0, 0), 0),
        [(0, 0), (750, 0), (750, 1050), (0, 1050)])
    assert np.hypot(*(top_right - top_left)) < 0.95 * np.hypot(*(right - left))


def test_a_camera_straight_above_keeps_the_proportion():
    """Without tilt a card is 5:7 in the picture to the last digits."""
    view = View(size=(1600, 1200), span=1600.0, tilt=0.0, roll=7.0)
    corners = projected(homography(view) @ placed((750, 1050), (90, 40), 12),
                        [(0, 0), (750, 0), (750, 1050)])
    across, down = np.hypot(*np.diff(corners, axis=0).T)
    assert across / down == pytest.approx(5 / 7, rel=1e-9)
    assert across == pytest.approx(750.0, rel=1e-9)


def test_rounded_corners_have_a_radius_of_an_eighth_of_an_inch():
    """The stock ends 1/8 in (37.5 px at 300 per inch) times 1 - 1/sqrt(2) in from the corner.

    An eighth of an inch is common practice, no source.
    """
    mask = edge_mask((750, 1050), "rounded", np.random.default_rng(1))
    gone = 37.5 * (1 - 1 / np.sqrt(2))
    diagonal = np.diagonal(mask)[:60]
    assert np.interp(0.5, diagonal, np.arange(60) + 0.5) == pytest.approx(gone, abs=1.0)
    assert mask[0, 40:-40].min() == 1 and mask[40:-40, 0].min() == 1


def test_a_torn_edge_loses_little_and_only_below():
    """A torn card has lost some of its lower edge, never more than 12 px of it."""
    mask = edge_mask((1050, 750), "torn", np.random.default_rng(1))
    assert mask[:-13].min() == 1
    assert 0 < mask[-12:].mean() < 1


@pytest.mark.parametrize("card", ["night-heron", "lighthouse"])
def test_the_same_seed_draws_the_same_card(card):
    """A card depends on its seed and on nothing else."""
    again = PICTURES[card].draw(seed_of(card)).astype(np.float32)
    other = PICTURES[card].draw(seed_of(card) + 1)
    assert np.array_equal(face_of(card, "front"), again)
    assert np.abs(again - other).mean() > 0.005


def test_the_phones_own_notes_lie_in_one_photograph():
    """two-boats.jpg lies on its side and carries place, owner, serial number and thumbnail.

    Read by Pillow, which knows nothing of how they were written (tags: Exif 2.32).
    """
    import io

    from PIL import ExifTags, Image

    path = DEMO / "photos" / "two-boats.jpg"
    with Image.open(path) as image:
        notes = image.getexif()
        assert image.size == (1200, 1600)
        assert notes[0x0112] == 6
        assert notes.get_ifd(0x8769)[0xA431].startswith("SN-")
        assert notes.get_ifd(0x8825)[1] == "N"
        small = notes.get_ifd(ExifTags.IFD.IFD1)
    start = path.read_bytes().index(b"II*\0") + small[0x0201]
    thumbnail = path.read_bytes()[start:start + small[0x0202]]
    with Image.open(io.BytesIO(thumbnail)) as image:
        assert image.size == (160, 120)


def test_lettering_knows_every_letter_it_is_given():
    """Each letter leaves ink and moves the pen on; a space leaves none."""
    rng = np.random.default_rng(1)
    for letter in [*STROKES, " "]:
        plate = np.zeros((80, 80), np.uint8)
        assert lettered(plate, letter, (20, 60), 36, rng) > 15
        assert (plate.max() > 0) == (letter != " ")


def test_a_glued_piece_changes_only_its_surroundings():
    """Glue stays within a small distance of the piece's outline."""
    art = Collage((300, 420), 4)
    before = art.sheet.copy()
    art.glue(art.plain("#224488"), np.array([(100, 100), (200, 100), (200, 200), (100, 200)]))
    changed = np.abs(art.sheet - before).max(2) > 0
    assert changed[130:170, 130:170].all()
    assert not changed[:60].any() and not changed[:, 250:].any()


def test_the_studio_needs_only_general_libraries():
    """Nothing but numpy, OpenCV and Pillow is imported to draw."""
    known = {"cv2", "numpy", "PIL", "pillow_heif", "studio", *sys.stdlib_module_names}
    for file in (DEMO / "studio").rglob("*.py"):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            if isinstance(node, ast.ImportFrom) and not node.level:
                names = [node.module]
            assert {name.split(".")[0] for name in names} <= known, file


@pytest.mark.parametrize("board", [DEMO, STARTER_BOARD], ids=["demo", "starter"])
def test_the_posts_are_read_without_a_word(board):
    """Both boards that are given away have no error and no warning in their posts."""
    from swapboard.records.board import read_board

    photos = {file.name for file in (board / "photos").iterdir()}
    _, _, problems = read_board(texts_of(board), photos)
    assert problems == []


def test_the_demo_shows_a_board_in_use():
    """Makers of as many countries, cards in many media and themes, three series, offers that
    ended in every way, and calls in every phase, one of them in person."""
    from swapboard.records.board import read_board
    from swapboard.records.overtaken import states
    from swapboard.records.types import OfferState
    from swapboard.views.calls import phase_of

    board, settings, _ = read_board(texts_of(DEMO), set(BY_FILE))
    cards, offers, calls = board.cards.values(), board.offers.values(), board.calls.values()
    assert len({maker.country for maker in board.makers.values()}) == len(board.makers) >= 14
    assert {card.maker for card in cards} == set(board.makers) and len(cards) >= 90
    assert len({medium for card in cards for medium in card.media}) >= 15
    assert len({theme for card in cards for theme in card.themes}) >= 15
    assert len({card.series for card in cards if card.series}) == 3
    became = states(board, DAY, settings.swaps.offer_days)
    assert set(became.values()) == set(OfferState) and len(became) >= 25
    assert sum(len(offer.gives) > 1 for offer in offers) >= 5
    phases = {str(phase_of(call, DAY)) for call in calls}
    assert phases == {"announced", "signing up", "arriving", "dealt", "closed"}
    assert [call.name for call in calls if call.by == "in person"] == ["table-by-the-water"]
    assert all(60 <= len(card.alt) <= 260 for card in cards)
    assert len({card.alt for card in cards}) == len(cards)


def test_a_series_counts_its_days_from_one():
    """Each series has every day once, from 1 on, in the order in which its cards came."""
    from swapboard.records.board import read_board

    board, _, _ = read_board(texts_of(DEMO), set(BY_FILE))
    series = {}
    for card in board.cards.values():
        if card.series:
            series.setdefault(card.series, []).append((card.day, card.date))
    for days in series.values():
        assert [day for day, _ in sorted(days)] == list(range(1, len(days) + 1))
        assert sorted(days) == sorted(days, key=lambda one: one[1])


def test_every_drawn_card_is_posted():
    """What was drawn for the board has a post, and no post is without its drawing."""
    posts = {post.stem for post in (DEMO / "cards").iterdir()}
    assert posts == set(PICTURES) - {laid.card for laid in STARTER.laid}


def test_a_nine_pocket_page_keeps_pockets_free():
    """The page of windows holds seven cards, each inside the page and apart from the others."""
    scene = BY_FILE["seven-windows.jpg"]
    assert scene.sleeved and len(scene.laid) == 7
    page = page_outline()
    boxes = []
    for laid in scene.laid:
        corners = projected(placed(PICTURES[laid.card].size, laid.centre, laid.degrees),
                            [(0, 0), (750, 0), (750, 1050), (0, 1050)])
        assert (corners > page[0]).all() and (corners < page[2]).all()
        boxes.append((corners.min(0), corners.max(0)))
    for number, (low, high) in enumerate(boxes):
        for other_low, other_high in boxes[:number]:
            assert (low > other_high).any() or (other_low > high).any()


@pytest.mark.parametrize("post", sorted((DEMO / "cards").iterdir()), ids=lambda post: post.stem)
def test_a_post_points_at_its_own_card(post):
    """The picture that a post names shows that card, and the named point lies on it."""
    known = json.loads((DEMO / "truth.json").read_text(encoding="utf-8"))
    for key, side in (("Photo", "front"), ("Back", "back")):
        line = re.search(rf"^{key}: (\S+)(?: at ([\d.]+)% ([\d.]+)%)?$", header_of(post), re.M)
        if line is None:
            assert key == "Back"
            continue
        width, height = BY_FILE[line[1]].view.size
        (corners,) = [one["corners"] for one in known[line[1]]
                      if (one["card"], one["side"]) == (post.stem, side)]
        if line[2] is None:
            assert len(known[line[1]]) == 1
            continue
        point = (float(line[2]) / 100 * width, float(line[3]) / 100 * height)
        sides = zip(corners, corners[1:] + corners[:1], strict=True)
        assert all(area([a, b, point]) > 0 for a, b in sides)
