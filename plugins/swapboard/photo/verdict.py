"""How sure a found card is, and what its maker should know."""

import numpy as np

from swapboard.photo.find import Found
from swapboard.photo.geometry import from_top_left
from swapboard.photo.proportion import proportion_of
from swapboard.photo.rating import Rated
from swapboard.photo.sides import Fit

DOUBT = 0.5


def judge(
    picture: np.ndarray, quad: np.ndarray, fit: Fit | None, rated: Rated, focal: float | None
) -> Found:
    """The finished card: corners in order, kind, confidence and reasons."""
    height, width = picture.shape[:2]
    corners = from_top_left(quad)
    proportion = proportion_of(corners, width, height, focal)
    confidence = float(np.clip(rated.score, 0, 1))
    return Found(
        corners=tuple((round(float(x), 2), round(float(y), 2)) for x, y in corners),
        proportion=round(proportion, 4),
        kind="card",
        confidence=round(confidence, 3),
        doubtful=confidence < DOUBT,
        reasons=(),
    )
