"""Corners, proportions and sizes."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from swapboard.photo.choose import card_at, middle_of
from swapboard.photo.derive import WIDTHS, derive, jpeg_size, sizes_for
from swapboard.photo.find import Found
from swapboard.photo.geometry import (
    from_top_left,
    intersection_over_union,
    is_wide,
    signed_area,
)
from swapboard.photo.proportion import focal_in_pixels, proportion_of
from swapboard.photo.rectify import rectify, shape_of, size_for


def rectangle(width: float, height: float, turn: float = 0.0) -> np.ndarray:
    half = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * (width / 2, height / 2)
    c, s = np.cos(np.radians(turn)), np.sin(np.radians(turn))
    return half @ np.array([[c, s], [-s, c]]) + 1000


@settings(deadline=None)
@given(st.floats(-44, 44), st.integers(0, 3), st.booleans(), st.booleans())
def test_top_left_within_45_degrees(turn, start, backwards, wide):
    """A card turned by less than 45° is read from its own top left, clockwise, never mirrored."""
    own = rectangle(700, 500, turn) if wide else rectangle(500, 700, turn)
    given_corners = np.roll(own, start, axis=0)
    read = from_top_left(given_corners[::-1] if backwards else given_corners)
    np.testing.assert_allclose(read, own, atol=1e-9)
    assert is_wide(read) == wide
    assert signed_area(read) > 0


def test_overlap_of_shifted_squares():
    """Two unit squares half a side apart share a third of their joint area."""
    one = np.array([[0, 0], [1, 0], [1, 1], [0, 1.0]])
    assert intersection_over_union(one, one + (0.5, 0)) == pytest.approx(1 / 3)


def seen_by_camera(width: float, height: float, tilt: float, turn: float, focal: float):
    """Corners of a width × height rectangle under a pinhole camera written out here:
    x = f X / Z, y = f Y / Z, rotated about x and z, 3 focal lengths away."""
    t, r = np.radians(tilt), np.radians(turn)
    about_x = np.array([[1, 0, 0], [0, np.cos(t), -np.sin(t)], [0, np.sin(t), np.cos(t)]])
    about_z = np.array([[np.cos(r), -np.sin(r), 0], [np.sin(r), np.cos(r), 0], [0, 0, 1]])
    flat = np.array([[-1, -1, 0], [1, -1, 0], [1, 1, 0], [-1, 1, 0]])
    space = flat * (width / 2, height / 2, 1) @ about_z.T @ about_x.T + (0, 0, 3 * focal)
    return space[:, :2] * focal / space[:, 2:] + (2000, 1500)


@settings(deadline=None)
@given(st.floats(12, 45), st.floats(-40, 40), st.floats(1.0, 2.2))
def test_proportion_in_closed_form(tilt, turn, ratio):
    """A tilted rectangle's true proportion comes back to one in a thousand.

    Zhang & He, "Whiteboard It!", 2002, sections 4.2–4.3, against a camera of our own."""
    focal = focal_in_pixels(26, 4000, 3000)
    corners = seen_by_camera(4000, 4000 * ratio, tilt, turn, focal)
    assert proportion_of(corners, 4000, 3000, focal) == pytest.approx(ratio, rel=1e-3)


def test_side_lengths_alone_would_be_wrong():
    """The tilted card of the test above is not 1.4 by its side lengths."""
    focal = focal_in_pixels(26, 4000, 3000)
    corners = seen_by_camera(2500, 3500, 40, 0, focal)
    width = np.linalg.norm(corners[1] - corners[0]) + np.linalg.norm(corners[2] - corners[3])
    height = np.linalg.norm(corners[3] - corners[0]) + np.linalg.norm(corners[2] - corners[1])
    assert abs(height / width - 1.4) > 0.1
    assert proportion_of(corners, 4000, 3000, focal) == pytest.approx(1.4, rel=1e-3)


def test_frontal_view_ignores_the_focal_length():
    """A parallelogram's proportion is that of its sides, whatever the focal length."""
    quad = rectangle(500, 700, 10)
    assert proportion_of(quad, 4000, 3000, 100.0) == proportion_of(quad, 4000, 3000, 9000.0)
    assert proportion_of(quad, 4000, 3000) == pytest.approx(1.4)


def test_focal_length_of_a_full_frame():
    """50 mm equivalent on a 3:2 picture 36 px wide is 50 px (24 × 36 mm film, by definition)."""
    assert focal_in_pixels(50, 36, 24) == pytest.approx(50, rel=1e-6)


@settings(deadline=None)
@given(st.integers(40, 3000), st.booleans(), st.integers(1, 4))
def test_published_sizes_are_exact(short, wide, panels):
    """Every size has exactly its proportion and is no wider than the card was in the photo."""
    long = short * 1.4
    across, down = (long, short) if wide else (short, long)
    corners = rectangle(across * panels, down)
    shape = shape_of(corners, panels)
    width, height = size_for(corners, shape)
    assert width * shape[1] == height * shape[0]
    assert width <= max(across * panels, shape[0]) + 1e-6
    sizes = sizes_for(width, height)
    assert sizes == tuple(sorted(sizes))
    assert all(w * shape[1] == h * shape[0] and w <= width and w <= 960 for w, h in sizes)
    assert jpeg_size(sizes) in sizes


def test_sizes_of_a_large_card():
    """A card of 960 × 1344 px is published 240, 320, 480 and 960 px wide."""
    assert sizes_for(960, 1344) == ((240, 336), (320, 448), (480, 672), (960, 1344))
    assert WIDTHS == (240, 320, 480, 960)
    assert [w % 7 for w, _ in sizes_for(959, 685)] == [0, 0, 0, 0]
    assert sizes_for(100, 140) == ((100, 140),)


@pytest.mark.parametrize(
    ("corners", "panels", "shape"),
    [
        (rectangle(500, 700), 1, (5, 7)),
        (rectangle(700, 500), 1, (7, 5)),
        (rectangle(500 * 3, 700), 3, (15, 7)),
        (rectangle(700, 500 * 2), 2, (7, 10)),
        (rectangle(700 * 2, 500), 2, (14, 5)),
    ],
)
def test_shape_of_panels(corners, panels, shape):
    """An open card of n panels is n cards beside or above one another."""
    assert shape_of(corners, panels) == shape


@pytest.mark.parametrize("turn", [0, 12, -31])
def test_cut_card_shows_the_card(turn):
    """Cut out of a turned picture, the four quarters of a card are where they were."""
    picture = np.full((2000, 2000, 3), 90, np.uint8)
    quad = rectangle(500, 700, turn)
    y, x = np.mgrid[:2000, :2000] + 0.5
    colours = ((250, 0, 0), (0, 250, 0), (0, 0, 250), (250, 250, 0))
    for corner, colour in enumerate(colours):
        ahead, behind = quad[(corner + 1) % 4] - quad[corner], quad[corner - 1] - quad[corner]
        along = ((x - quad[corner, 0]) * ahead[0] + (y - quad[corner, 1]) * ahead[1]) / (
            ahead @ ahead
        )
        down = ((x - quad[corner, 0]) * behind[0] + (y - quad[corner, 1]) * behind[1]) / (
            behind @ behind
        )
        picture[(along >= 0) & (along < 0.5) & (down >= 0) & (down < 0.5)] = colour
    card = rectify(picture, quad, (5, 7))
    assert card.shape == (700, 500, 3)
    inner = card[10:-10, 10:-10].astype(int)
    assert np.abs(inner[:330, :230] - (250, 0, 0)).mean() < 2
    assert np.abs(inner[:330, -230:] - (0, 250, 0)).mean() < 2
    assert np.abs(inner[-330:, -230:] - (0, 0, 250)).mean() < 2
    assert np.abs(inner[-330:, :230] - (250, 250, 0)).mean() < 2


@pytest.mark.parametrize("height", [2800, 3300, 4130])
def test_fine_lines_do_not_turn_into_moire(height):
    """A card of alternating one-pixel lines is reduced to their mean, at whatever scale."""
    width = round(height / 1.4)
    picture = np.zeros((height, width, 3), np.uint8)
    picture[::2] = 255
    corners = np.array([[0, 0], [width, 0], [width, height], [0, float(height)]])
    smallest = derive(rectify(picture, corners, (5, 7)))[0][5:-5, 5:-5]
    assert abs(smallest.mean() - 127.5) < 3
    assert smallest.std() < 6


def card(x: float, y: float, size: float, confidence: float) -> Found:
    corners = ((x, y), (x + size, y), (x + size, y + 1.4 * size), (x, y + 1.4 * size))
    return Found(corners, 1.4, "card", confidence, False, ())


def test_card_under_a_point():
    """The point names the card under it; without one the surest is meant."""
    left, right = card(100, 100, 200, 0.8), card(500, 100, 200, 0.9)
    size = (1000, 500)
    assert card_at((left, right), size, (0.2, 0.5)) == left
    assert card_at((left, right), size, (0.45, 0.5)) is None
    assert card_at((left, right), size, None) == right
    assert card_at((), size, None) is None
    assert card_at((left, right), size, middle_of(right, size)) == right
