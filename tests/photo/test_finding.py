"""Cards found in invented photographs, whose corners are known."""

import cv2
import numpy as np
import pytest

from photo.scenes import CLASSES, scene
from swapboard.photo.find import find_cards
from swapboard.photo.geometry import intersection_over_union, signed_area


def best_overlaps(found, quads) -> list[float]:
    return [
        max((intersection_over_union(quad, np.array(c.corners)) for c in found), default=0.0)
        for quad in quads
    ]


@pytest.mark.parametrize(
    ("kind", "seed"), [*((kind, 100) for kind in CLASSES), ("several", 101), ("cropped", 101)]
)
def test_cards_are_found(kind, seed):
    """Every whole card is found to IoU 0.9 and most to 0.97, and nothing else is, unflagged."""
    photo = scene(kind, seed)
    found = find_cards(photo.picture)
    overlaps = best_overlaps(found, photo.quads)
    assert min(overlaps) > 0.9
    assert np.median(overlaps) > 0.97
    sure = [c for c in found if not c.doubtful]
    assert len(sure) <= len(photo.quads)


@pytest.mark.parametrize("kind", ["easy", "several"])
def test_corners_begin_at_the_cards_own_top_left(kind):
    """Corners run clockwise from the corner nearest the photo's top left: never mirrored."""
    photo = scene(kind, 103)
    for card in find_cards(photo.picture):
        corners = np.array(card.corners)
        quad = max(photo.quads, key=lambda q: intersection_over_union(q, corners))
        assert np.abs(corners - quad).max() < 12
        assert signed_area(corners) > 0


def test_corners_to_a_fraction_of_a_pixel():
    """On a plain table corners are found to within 0.15 % of the long side, in the median."""
    errors = []
    for seed in (104, 105):
        photo = scene("easy", seed)
        corners = np.array(find_cards(photo.picture)[0].corners)
        long = max(np.linalg.norm(np.roll(photo.quads[0], -1, axis=0) - photo.quads[0], axis=1))
        errors.extend(np.linalg.norm(corners - photo.quads[0], axis=1) / long)
    assert np.median(errors) < 0.0015


def test_same_corners_on_any_number_of_threads():
    """The number of threads changes nothing in what is found."""
    picture = scene("several", 100).picture
    before = cv2.getNumThreads()
    try:
        cv2.setNumThreads(1)
        one = find_cards(picture)
        cv2.setNumThreads(4)
        assert find_cards(picture) == one
    finally:
        cv2.setNumThreads(before)


def test_no_card_no_certainty():
    """An empty table gives no card that is not flagged."""
    photo = scene("wood", 100)
    table = np.ascontiguousarray(photo.picture[:, : int(photo.quads[0][:, 0].min()) - 10])
    assert all(card.doubtful for card in find_cards(table))
    assert all(card.doubtful for card in find_cards(np.full((600, 800, 3), 128, np.uint8)))


def test_cut_by_the_frame_is_flagged():
    """A card that leaves the photo is doubtful, and the reason says so."""
    photo = scene("easy", 100)
    quad = photo.quads[0]
    beyond = int(quad[:, 0].min() + 0.25 * np.ptp(quad[:, 0]))
    found = find_cards(np.ascontiguousarray(photo.picture[:, beyond:]))
    assert all(card.doubtful for card in found)


def test_other_size_is_measured():
    """A square on a table is no card: flagged, with the number."""
    picture = np.full((900, 1200, 3), (60, 90, 70), np.uint8)
    picture[250:650, 400:800] = (240, 235, 225)
    (square,) = find_cards(picture)
    assert square.kind == "other size"
    assert square.doubtful
    assert square.proportion == pytest.approx(1.0, abs=0.01)
    assert any("1.0" in reason for reason in square.reasons)


def test_blur_is_told():
    """A card out of focus is said to be blurred, a sharp one is not."""
    photo = scene("easy", 101)
    soft = cv2.GaussianBlur(photo.picture, (0, 0), 6)
    assert not any("blurred" in r for c in find_cards(photo.picture) for r in c.reasons)
    assert any("blurred" in r for c in find_cards(soft) for r in c.reasons)


def test_few_pixels_are_told():
    """A card of fewer than 750 × 1050 px is said to be too small to print at 300 per inch."""
    reasons = [r for c in find_cards(scene("several", 100).picture) for r in c.reasons]
    assert any("300 per inch" in reason for reason in reasons)


def test_reading_order():
    """Cards come row by row from the top, each row from the left."""
    picture = np.full((900, 1200, 3), (60, 90, 70), np.uint8)
    for x, y in ((700, 130), (150, 100), (430, 520)):
        picture[y : y + 280, x : x + 200] = (240, 235, 225)
    lefts = [round(card.corners[0][0]) for card in find_cards(picture)]
    assert lefts == pytest.approx([150, 700, 430], abs=2)
