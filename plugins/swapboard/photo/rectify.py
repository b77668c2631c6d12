"""A card cut straight out of its photo, at exactly its proportion."""

from math import ceil, log, sqrt

import cv2
import numpy as np

from swapboard.photo.geometry import side_lengths, signed_area

CARD = (5, 7)
WIDEST = 960
"""px: no published picture is wider."""

NEAR_ENOUGH = 1.25
"""px of the photo to one of the cut card, up to which it is read once for each: reading it twice
as densely would cost four times as much and come out 1 dB farther from the card."""

MOST_OVERSAMPLING = 4

QUARTER_PIXEL = 0.05
"""Of a step of 5 px: a card that is wide enough but for that is wide enough."""


def shape_of(corners: np.ndarray, panels: int = 1) -> tuple[int, int]:
    """The proportion (across, down) in whole numbers that the corners show.

    `corners` [4, 2] clockwise from the card's own top left. One panel is
    (5, 7) upright or (7, 5) wide. An open card of n panels is n cards side by
    side or one above the other; of these readings the nearest by the logarithm
    of the side lengths' ratio is taken, ties in the order listed here.
    """
    top, right, bottom, left = side_lengths(np.asarray(corners, dtype=np.float64))
    ratio = (top + bottom) / max(right + left, 1e-9)
    short, long = CARD
    readings = [
        (short * panels, long),
        (long, short * panels),
        (long * panels, short),
        (short, long * panels),
    ]
    return min(readings, key=lambda shape: abs(log(max(ratio, 1e-9)) - log(shape[0] / shape[1])))


def size_for(corners: np.ndarray, shape: tuple[int, int], widest: int = WIDEST) -> tuple[int, int]:
    """Width and height in px: what the photo's own pixels give, `widest` at most.

    Always a whole multiple of `shape`, so that the proportion is exact.
    """
    across, down = shape
    area = abs(signed_area(np.asarray(corners, dtype=np.float64)))
    times = min(int(sqrt(area / (across * down)) + QUARTER_PIXEL), widest // across)
    return across * max(times, 1), down * max(times, 1)


def rectify(picture: np.ndarray, corners: np.ndarray, shape: tuple[int, int]) -> np.ndarray:
    """The card as a uint8 array [height, width, 3], width : height exactly `shape`.

    `picture` uint8 [h, w, 3]; `corners` [4, 2] in px, clockwise from the
    card's own top left. Warped at the photo's own scale or finer (see
    `NEAR_ENOUGH`), then reduced by area averages, so that fine hatching does
    not turn into moiré. Pixels beyond the frame repeat its border.
    """
    corners = np.asarray(corners, dtype=np.float64)
    width, height = size_for(corners, shape)
    sides = side_lengths(corners)
    finest = max(max(sides[0], sides[2]) / width, max(sides[1], sides[3]) / height)
    times = 1 if finest <= NEAR_ENOUGH else min(ceil(finest - 0.05), MOST_OVERSAMPLING)
    wide, tall = width * times, height * times
    target = np.array([[0, 0], [wide, 0], [wide, tall], [0, tall]], dtype=np.float32)
    # OpenCV puts (0, 0) in the middle of the first pixel; corners here are at its outer edge.
    around = cv2.getPerspectiveTransform((corners - 0.5).astype(np.float32), target - 0.5)
    warped = cv2.warpPerspective(
        picture, around, (wide, tall), flags=cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE
    )
    if times == 1:
        return warped
    return cv2.resize(warped, (width, height), interpolation=cv2.INTER_AREA)
