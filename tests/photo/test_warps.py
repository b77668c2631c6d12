"""Pictures shrunk, and quadrilaterals straightened with what is around them."""

import cv2
import numpy as np
import pytest

from swapboard.photo.shrinking import shrunk, working_copy
from swapboard.photo.warps import Pyramid, warp_of

BOX = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], float)


@pytest.mark.parametrize("size", [(512, 384), (500, 375), (366, 275), (1500, 1100)])
def test_a_large_picture_shrunk_is_the_mean_of_what_each_px_covers(size):
    """Held to OpenCV's own area mean of the whole picture; rounded once more at each halving."""
    noise = np.random.default_rng(5).integers(0, 256, (2250, 3001, 3), np.uint8)
    direct = cv2.resize(noise, size, interpolation=cv2.INTER_AREA)
    quick = shrunk(noise, size)
    assert quick.shape == direct.shape
    off = np.abs(quick.astype(int) - direct)
    assert off.mean() < 3.5 and np.abs(quick.mean(axis=(0, 1)) - noise.mean(axis=(0, 1))).max() < 1


def test_a_ruler_fine_as_a_px_shrinks_to_grey_not_to_bands():
    ruler = np.zeros((3000, 4000, 3), np.uint8)
    ruler[:, ::2] = 255
    small, scale = working_copy(ruler, 500)
    assert scale == 0.125 and small.shape == (375, 500, 3)
    assert np.ptp(small) <= 1 and abs(int(small[0, 0, 0]) - 127) <= 1


@pytest.mark.parametrize("shape, small", [((3, 9000, 3), (1, 500)), ((9000, 1, 3), (500, 1))])
def test_a_strip_keeps_a_px_of_its_width(shape, small):
    assert working_copy(np.full(shape, 90, np.uint8), 500)[0].shape[:2] == small


def test_what_is_small_enough_stays_as_it_is():
    picture = np.zeros((300, 400, 3), np.uint8)
    assert working_copy(picture, 500) == (picture, 1.0)


@pytest.mark.parametrize("quad", [
    BOX * (200, 280) + (300, 200),
    BOX * (200, 280) + (20, 200),
    BOX * (200, 280) + (300, 520),
    BOX * (2000, 2800) - 900,
    BOX * (200, 280) + (300, 200) + [[40, 0], [-40, 0], [0, 0], [0, 0]],
    # All four corners of what is about it seem to lie in the picture; one is beyond the horizon.
    [[395, 443], [343, 473], [184, 247], [489, 299]],
], ids=["within", "left", "below", "about it all", "leaning", "beyond the horizon"])
def test_the_frame_is_marked_px_by_px(quad):
    """Held to each px's own place by the homography, OpenCV's."""
    size = (900, 700)
    picture = np.zeros((size[1], size[0], 3), np.uint8)
    warp, back = warp_of(Pyramid(picture), size, np.array(quad, float))
    y, x = np.mgrid[:warp.shape[0], :warp.shape[1]] + 0.5
    places = cv2.perspectiveTransform(np.stack([x, y], axis=-1).reshape(1, -1, 2), back)[0]
    within = ((places >= 0) & (places <= size)).all(axis=1).reshape(x.shape)
    assert (warp[..., 3] != within).mean() < 0.001
