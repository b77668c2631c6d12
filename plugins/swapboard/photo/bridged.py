"""Panels of one card that lies open, seen apart, for what is drawn along its fold looks like a gap.

Between two cards the table shows, or the shade on it. What is brighter there than the table beside
it, of another colour or black as ink, is paper: then the two are one.
"""

import cv2
import numpy as np

from swapboard.photo.geometry import intersection_over_union, overlap
from swapboard.photo.looking import Looks
from swapboard.photo.panels import AJAR, FILL, meeting
from swapboard.photo.readings import choose, is_likely
from swapboard.photo.refining import Refined

WIDEST = 0.1
"""Of a side's length, the widest band along a fold. (Of 168 open cards in photos by other hands
three were seen so, with bands of 0.038 to 0.061.)"""

MIDDLE = (0.3, 0.7)
"""Across a gap, from where to where it is looked at: its edges are blurred with what is beside."""

BESIDE = (0.03, 0.12)
"""Of a side's length, from where to where beyond a gap's ends the table is looked at."""

BRIGHTER, COLOURED = 30.0, 15.0
"""Levels, of 255 in CIE L*a*b*, by which paper differs from the table in lightness, upwards, or in
a* or b*. (Of four gaps between two cards alone, by other hands, none was brighter, and none of
another colour by more than 3.)"""

BLACK = 0.15
"""Of the table's lightness L*, at most, what is blacker than any shade on it."""

FEWEST = 40
"""px² at least, of both, to tell a colour."""


def without_gaps(looks: Looks) -> list[Refined]:
    """What was seen so far, two that are all that likely is a card as the one whose panels they
    are, if there is paper between them."""
    likely = [one for one, _ in choose(looks.looked) if is_likely(one)]
    if len(likely) != 2:
        return looks.looked
    gap, one, other = meeting(likely[0].quad, likely[1].quad)
    if not AJAR < gap < WIDEST or not _is_paper(looks.picture, one, other):
        return looks.looked
    whole = np.array([one[2], one[3], other[2], other[3]])
    card = looks.sure(whole)
    if card is None or intersection_over_union(card.quad, whole) < FILL:
        return looks.looked
    left = [one for one in looks.looked if overlap(one.quad, card.quad) < FILL * one.area]
    return [*left, card]


def _is_paper(picture: np.ndarray, one: np.ndarray, other: np.ndarray) -> bool:
    """Whether what lies between the first sides of two quads [4, 2] px is not the table that shows
    at either end, be it in the shade."""
    starts, ends = np.array([one[0], other[1]]), np.array([one[1], other[0]])
    along = (ends - starts).mean(axis=0)
    low, high = MIDDLE
    between = np.concatenate([_shared(starts, low, high), _shared(ends, high, low)])
    tables = [np.concatenate([at + way * BESIDE[0] * along, (at + way * BESIDE[1] * along)[::-1]])
              for at, way in ((starts, -1), (ends, 1))]
    gap, *beside = (_colour(picture, quad) for quad in (between, *tables))
    beside = [table for table in beside if table is not None]
    if gap is None or not beside:
        return False
    return any(all(map(is_so, beside)) for is_so in (
        lambda table: gap[0] > table[0] + BRIGHTER,
        lambda table: gap[0] < table[0] * BLACK,
        lambda table: np.abs(gap - table)[1:].max() > COLOURED))


def _shared(pair: np.ndarray, first: float, last: float) -> np.ndarray:
    """Two points [2, 2] between a pair of them, at those shares of the way."""
    return pair[0] + np.array([[first], [last]]) * (pair[1] - pair[0])


def _colour(picture: np.ndarray, quad: np.ndarray) -> np.ndarray | None:
    """The median L*, a* and b* [3], in levels of 255, on a quad [4, 2] px; None on too little."""
    low = np.floor(quad.min(axis=0)).astype(int).clip(min=0)
    part = picture[low[1] : int(quad[:, 1].max()) + 1, low[0] : int(quad[:, 0].max()) + 1]
    if not part.size:
        return None
    on = np.zeros(part.shape[:2], np.uint8)
    cv2.fillConvexPoly(on, np.round((quad - low - 0.5) * 16).astype(np.int32), 1, shift=4)
    seen = cv2.cvtColor(part, cv2.COLOR_RGB2Lab)[on > 0]
    return np.median(seen.astype(np.float64), axis=0) if len(seen) >= FEWEST else None
