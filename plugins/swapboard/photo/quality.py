"""What a maker could do better the next time: focus, glare, distance."""

import cv2
import numpy as np

from swapboard.photo.geometry import side_lengths

PRINT_SIZE = (750, 1050)
"""px: 2.5 × 3.5 in at 300 per inch."""

SOFT = 1.22
"""Where fine detail is no steeper than this many times the coarse, focus is lost."""

GLARE_SHARE = 0.02
"""Of the card's area, from which a blown-out patch is worth a word."""

BLOWN = 253
"""Grey level from which a channel holds no more detail."""

LOOKED_AT = (500, 700)


def shortcomings(picture: np.ndarray, corners: np.ndarray) -> tuple[str, ...]:
    """Plain words on what the photo of a card lacks; () where it lacks nothing.

    `picture` uint8 [h, w, 3]; `corners` [4, 2] px clockwise from the top left.
    """
    told = []
    short, long = _size(corners)
    if short < 0.97 * PRINT_SIZE[0] or long < 0.97 * PRINT_SIZE[1]:
        told.append(
            f"too few pixels to print at 300 per inch: {short:.0f} × {long:.0f}, "
            f"where {PRINT_SIZE[0]} × {PRINT_SIZE[1]} are needed"
        )
    card = _card_alone(picture, corners, min(1.0, LOOKED_AT[1] / max(long, 1)))
    if _sharpness(card) < SOFT:
        told.append("blurred: hold the camera still and let it focus on the card")
    if _glare(card) > GLARE_SHARE:
        told.append("glare on the card: move the lamp or turn off the flash")
    return tuple(told)


def _size(corners: np.ndarray) -> tuple[float, float]:
    top, right, bottom, left = side_lengths(corners)
    across, down = (top + bottom) / 2, (right + left) / 2
    return min(across, down), max(across, down)


def _card_alone(picture: np.ndarray, corners: np.ndarray, scale: float) -> np.ndarray:
    """The card seen straight, its outermost twentieth left out."""
    short, long = _size(corners)
    wide = corners[1] - corners[0]
    across = max(short, long) if np.hypot(*wide) > short * 1.05 else short
    down = short + long - across
    size = (max(int(across * scale), 16), max(int(down * scale), 16))
    target = np.array([[0, 0], [size[0], 0], size, [0, size[1]]], dtype=np.float32)
    picture, start = _around(picture, corners)
    corners = corners - start
    around = cv2.getPerspectiveTransform(corners.astype(np.float32) - 0.5, target - 0.5)
    if scale < 0.6:
        height, width = picture.shape[:2]
        small = (max(int(width * scale), 1), max(int(height * scale), 1))
        picture = cv2.resize(picture, small, interpolation=cv2.INTER_AREA)
        shrink = np.diag([width / picture.shape[1], height / picture.shape[0], 1.0])
        around = around @ shrink
    card = cv2.warpPerspective(picture, around, size, borderMode=cv2.BORDER_REPLICATE)
    edge = (size[0] // 20, size[1] // 20)
    return card[edge[1] : size[1] - edge[1], edge[0] : size[0] - edge[0]]


def _around(picture: np.ndarray, corners: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """The part of a picture in which a card lies, and where it starts: (x, y) px."""
    limit = np.array([picture.shape[1], picture.shape[0]])
    start = np.clip(np.floor(corners.min(axis=0)) - 2, 0, limit - 1).astype(int)
    end = np.clip(np.ceil(corners.max(axis=0)) + 2, start + 1, limit).astype(int)
    return picture[start[1] : end[1], start[0] : end[0]], start


def _sharpness(card: np.ndarray) -> float:
    """How much steeper the steepest places are than after a blur of two px.

    A blurred picture hardly changes when it is blurred again (after Crété et
    al., "The blur effect", 2007). Cards without detail count as sharp.
    """
    grey = cv2.cvtColor(card, cv2.COLOR_RGB2GRAY).astype(np.float32)
    fine = cv2.GaussianBlur(grey, (0, 0), 0.7)
    coarse = cv2.GaussianBlur(grey, (0, 0), 2.0)
    steepest = [
        float(np.percentile(cv2.magnitude(cv2.Sobel(g, -1, 1, 0), cv2.Sobel(g, -1, 0, 1)), 99.5))
        for g in (fine, coarse)
    ]
    return steepest[0] / steepest[1] if steepest[1] > 20 else np.inf


def _glare(card: np.ndarray) -> float:
    """Share of the largest blown-out patch, if it fades out softly; 0 for white paper.

    Paper evenly exposed to white ends in straight, hard edges; a lamp's
    reflection is ringed by ever darker tones.
    """
    darkest = cv2.min(cv2.min(*cv2.split(card)[:2]), card[..., 2])
    if darkest.max() < BLOWN:
        return 0.0
    blown = (darkest >= BLOWN).astype(np.uint8)
    blown = cv2.morphologyEx(blown, cv2.MORPH_OPEN, np.ones((5, 5), np.uint8))
    count, labels, stats, _ = cv2.connectedComponentsWithStats(blown)
    if count < 2:
        return 0.0
    largest = 1 + int(stats[1:, cv2.CC_STAT_AREA].argmax())
    share = stats[largest, cv2.CC_STAT_AREA] / labels.size
    patch = (labels == largest).astype(np.uint8)
    near = cv2.dilate(patch, np.ones((9, 9), np.uint8)) - cv2.dilate(patch, np.ones((3, 3)))
    ring = darkest[near > 0]
    soft = ring.size > 0 and float(np.mean((ring > 200) & (ring < BLOWN))) > 0.6
    return float(share) if soft and share < 0.5 else 0.0
