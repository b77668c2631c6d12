"""A card's four sides seen near, where the edge seen from afar is not the card's own.

To the refiner a hundredth of a card's length is two pixels, and a sleeve's rim, a narrow frame or
a hard shadow is hardly wider. Here the strips about the four sides are straightened three times
as fine, and a small network says how far off the card's own edges lie. It sees all four at once:
what is drawn along an edge, or slipped over a card, mostly leaves one margin all round.
"""

from collections.abc import Callable, Sequence
from functools import partial

import cv2
import numpy as np

from swapboard.photo.geometry import is_within, mean_sides, side_lengths
from swapboard.photo.networks import ALONG, BINS, Networks
from swapboard.photo.plane import off_shape, table_of
from swapboard.photo.warps import Pyramid

STEP = 0.002
"""Of a card's length: how far the places lie apart at which its edge may be."""

PLACES = (np.arange(BINS) - BINS / 2 + 0.5) * STEP
"""Those, inwards from where the edge is thought to be."""

EACH, ENDS = 8, 0.05
"""How many points are read for each one shown along a side; and what is left out of it at either
end, where corners may be round."""

SHOWN = 250
"""px of a card's length that a level of the picture has twice over at least, to be fine enough."""

LOOKS = 3
"""How often it looks at most: from the edge it was led to it sees farther."""

SURE, SURE_OUT, NEAR = 0.6, 0.8, 3
"""So sure, 0–1, it must be of a place and so many beside it, for a side to move there; and farther
out, where a rim may be. (Of 1,257 cards in pictures by other hands that cost one.)"""

ALSO, ABOUT = 0.3, 0.015
"""How sure it must be for a side to move as far as the surest, or by so much more or less of the
card's length: what is slipped over a card mostly leaves one margin. (Of 1,257 cards in pictures by
other hands 1,169 were right to IoU 0.97 with that, 1,167 without.)"""

EITHER, BESIDE, SHAPELIER = 0.25, 6, 0.006
"""So sure of another edge on all four sides, so many bins from the likeliest at least, it leaves
open which is the card's; then it is the one that has its proportion better by so much, as a
logarithm."""

FAR = 0.008
"""Of a card's length: what is nearer than that is left to the edges of the photo's own pixels."""

WITHIN = 0.02
"""Likewise: a side as near the frame is left alone, for nothing is seen beyond it."""

LIKE, AGREED, LESS, SAY_SIZE = 0.1, 0.012, 0.02, 2
"""As logarithms: cards of one size; how far off that size a side may move one that was nearer to
it; and how much smaller, by area, one is out of its sleeve. So many say how large one is."""

SHAPED, LESS_SO = 0.02, 0.02
"""As logarithms: what has a card's own proportion, and how much less of it it must not have then:
a frame on a card of its table's colour looks like a card in its sleeve. (Of 105 such moves in
pictures by other hands that kept back nine, five of them wrong.)"""


def on_own_edges(
    quads: Sequence[np.ndarray], sure: Sequence[bool], pyramid: Pyramid, networks: Networks,
    size: tuple[int, int], focal: float | None = None,
) -> list[np.ndarray]:
    """The corners [4, 2] px of each card of a picture of `size` (w, h) px, its sides on what
    looks like its own edges from near; of those that the frame cuts as they were.

    `sure` ones say how large cards are: the nearer look at one of many may take its pocket for it,
    which all of them would contradict; `focal` in px where known.
    """
    def is_shapelier(at: int, other: np.ndarray) -> bool:
        was, now = (off_shape(quads, at, one, size, focal) for one in (quads[at], other))
        return now < min(SHAPED, was - SHAPELIER)

    nearer = [_nearer(quad, partial(is_shapelier, at), pyramid, networks, size)
              for at, quad in enumerate(quads)]
    if all(one is other for one, other in zip(quads, nearer, strict=True)):
        return nearer
    table = table_of(quads, *size, focal)
    known, then = (np.array([mean_sides(quad) for quad in table.level(np.array(some))])
                   for some in (quads, nearer))

    def holds(at: int, other: np.ndarray) -> bool:
        was, now = (off_shape(quads, at, quad, size, focal) for quad in (quads[at], other))
        shaped = was > SHAPED or now < was + LESS_SO
        return shaped and _agrees(at, known, then, np.array(sure))

    return [other if other is quad or holds(at, other) else quad
            for at, (quad, other) in enumerate(zip(quads, nearer, strict=True))]


def _agrees(at: int, sizes: np.ndarray, then: np.ndarray, sure: np.ndarray) -> bool:
    """Whether one of many sizes [n, 2] may as well be what it is `then`, for what those like it
    say: that they were as large, or, where most of them came out of something, that they are."""
    like = sure & (np.abs(np.log(sizes / sizes[at])).max(axis=1) < LIKE)
    like[at] = False
    if like.sum() < SAY_SIZE:
        return True
    smaller = np.log(then / sizes).sum(axis=1) < -LESS
    said = (then if smaller[like].mean() > 0.5 else sizes)[like]
    was, now = (np.abs(np.log(one / np.median(said, axis=0))).max()
                for one in (sizes[at], then[at]))
    return bool(now <= max(was, AGREED))


def _nearer(
    quad: np.ndarray, is_shapelier: Callable[[np.ndarray], bool], pyramid: Pyramid,
    networks: Networks, size: tuple[int, int],
) -> np.ndarray:
    if not is_within(quad, size):
        return quad
    found, shares = _led(quad, pyramid, networks, size)
    if found is not quad or _along_frame(quad, size).any():
        return found
    either = _as_well(shares)
    other = quad if either is None else moved(quad, either)
    return other if other is not quad and is_shapelier(other) else quad


def _led(
    quad: np.ndarray, pyramid: Pyramid, networks: Networks, size: tuple[int, int]
) -> tuple[np.ndarray, np.ndarray]:
    """Where look after look leads, and what the last one said [4, 96]."""
    for _ in range(LOOKS):
        shares = networks.edges(strips(pyramid, quad))
        off = _off(shares)
        off[_along_frame(quad, size)] = 0
        if not off.any():
            break
        quad = moved(quad, off)
    return quad, shares


def _as_well(shares: np.ndarray) -> np.ndarray | None:
    """How far inwards [4] the edges may lie as well, by one margin all round; None if nowhere: a
    rim and an edge at times look alike."""
    likeliest = np.abs(np.arange(BINS) - shares.argmax(axis=1)[:, None]) <= BESIDE
    mass, off = _about(shares, np.where(likeliest, 0, shares).argmax(axis=1))
    margin = np.median(off)
    even = np.abs(off - margin).max() < ABOUT and abs(margin) > FAR
    return off if even and mass.min() > EITHER else None


def _off(shares: np.ndarray) -> np.ndarray:
    """How far inwards [4] the edges lie of which it is sure, of `shares` [4, 96]; 0 where none."""
    mass, off = _about(shares, shares.argmax(axis=1))
    moves = (mass > np.where(off < 0, SURE_OUT, SURE)) & (np.abs(off) > FAR)
    return _alike(shares, moves, mass, off) if moves.any() else np.zeros(4)


def _alike(
    shares: np.ndarray, moves: np.ndarray, mass: np.ndarray, off: np.ndarray
) -> np.ndarray:
    """How far inwards [4] sides go of which some move: as far as the surest of those, or about so,
    where that may be; else as far as they do by themselves, if they do."""
    alike = np.abs(PLACES - off[np.where(moves, mass, 0).argmax()]) < ABOUT
    also, there = _about(shares, (shares * alike).argmax(axis=1))
    return np.where(also > ALSO, there, np.where(moves, off, 0))


def _about(shares: np.ndarray, found: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """How sure it is of a bin [4] of each side and those beside it, and where that is, inwards."""
    near = np.abs(np.arange(BINS) - found[:, None]) <= NEAR
    mass = (shares * near).sum(axis=1)
    return mass, (shares * near * PLACES).sum(axis=1) / np.maximum(mass, 1e-9)


def _along_frame(quad: np.ndarray, size: tuple[int, int]) -> np.ndarray:
    """Which sides [4] have their middle on the frame of a picture of `size`, or beyond it."""
    middles = (quad + np.roll(quad, -1, axis=0)) / 2
    within = np.minimum(middles, np.array(size) - middles).min(axis=1)
    return within < WITHIN * float(side_lengths(quad).max())


def strips(pyramid: Pyramid, quad: np.ndarray) -> np.ndarray:
    """float32 [4, 3, 32, 96], colours in 0–1: the strips about the sides of a quadrilateral [4, 2]
    px, clockwise from the top; along each side, and across it from outside to inside."""
    level, scale = pyramid.level_for(float(side_lengths(quad).max()), SHOWN)
    corners, length = flat(quad)
    sides = np.roll(corners, -1, axis=0) - corners
    inward = np.column_stack([-sides[:, 1], sides[:, 0]]) / np.hypot(*sides.T)[:, None]
    along = ENDS + (1 - 2 * ENDS) * (np.arange(ALONG * EACH) + 0.5) / (ALONG * EACH)
    places = (corners[:, None, None] + along[:, None] * sides[:, None, None]
              + (PLACES * length)[:, None, None] * inward[:, None, None])
    onto = cv2.getPerspectiveTransform(np.float32(corners), np.float32(quad * scale))
    points = cv2.perspectiveTransform(places.reshape(1, -1, 2), onto)[0] - 0.5
    points = points.reshape(4 * BINS, ALONG * EACH, 2).astype(np.float32)
    seen = cv2.remap(level, points[..., 0], points[..., 1], cv2.INTER_LINEAR,
                     borderMode=cv2.BORDER_REPLICATE)
    seen = cv2.resize(seen, (ALONG, 4 * BINS), interpolation=cv2.INTER_AREA)
    shown = seen.reshape(4, BINS, ALONG, 3).transpose(0, 3, 2, 1)
    return np.ascontiguousarray(shown, dtype=np.float32) / 255


def moved(quad: np.ndarray, inwards: np.ndarray) -> np.ndarray:
    """The quadrilateral [4, 2] px with each side so far inwards [4], as a share of its length."""
    corners, length = flat(quad)
    top, right, bottom, left = inwards * length
    within = corners + [[left, top], [-right, top], [-right, -bottom], [left, -bottom]]
    seen = cv2.getPerspectiveTransform(np.float32(corners), np.float32(quad))
    return cv2.perspectiveTransform(within[None], seen)[0]


def flat(quad: np.ndarray) -> tuple[np.ndarray, float]:
    """A quadrilateral's [4, 2] corners as if it lay flat, and its length, in px."""
    wide, tall = mean_sides(quad)
    return np.array([[0, 0], [wide, 0], [wide, tall], [0, tall]]), max(wide, tall)
