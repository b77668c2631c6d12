"""How unlike the bare table beside it what was seen is.

An empty pocket, a field of a cloth, a tile: each has a card's sides, and looks just like the places
beside it where nothing lies. Colours, how they are spread, how fine and which way the pattern runs
are measured, not where it runs: the pattern goes on there, but seldom in step.
"""

from collections.abc import Callable, Sequence

import cv2
import numpy as np

from swapboard.photo.geometry import is_convex, overlap, signed_area
from swapboard.photo.warps import Pyramid, tall_first, warp_of

SHOWN, INSET = (64, 90), -0.08
"""px at which a place is looked at, and how much of its sides is left out: there a card's edge may
be, or a weld."""

STEPS = 1.05, 2.1
"""Of a card's sides: how far from a card places are looked at, each way."""

MOST = 20
"""Places at most; among them what is bare shows itself."""

WITHIN, TAKEN, ALIKE, LARGER = 0.45, 0.15, 0.3, 2.0
"""The share of a place that must be in the picture; of it, that may be covered by what was seen,
or by another place; and how many times as large as the card it may seem, or as small."""

SHOWS = 0.1
"""Of a place, what must show in the picture for it to be measured at all."""

BRIGHT = np.array([0.3, 0.59, 0.11])
"""Of red, green and blue, in how bright a colour is."""

FLAT = 0.004
"""Spread of brightness, 0–1, that is a photo's grain: what has less has none."""

NOT = 10.0
"""As unlike as anything: where no bare place is in the picture, nothing speaks against a card."""


def unlike_bare(
    pyramid: Pyramid, size: tuple[int, int], quads: Sequence[np.ndarray], likely: Sequence[bool],
    may_be_card: Callable[[np.ndarray], bool],
) -> list[float]:
    """How much each of the quadrilaterals [4, 2] px in a picture of `size` (w, h) px differs from
    the bare place that is most like it: below 1 hardly, and `NOT` where there is none.

    Bare is what lies beside those that are `likely` cards, as large as they, is none of them, and
    of which `may_be_card` does not say that a card was overlooked there: one of the same edition
    looks like the others.
    """
    quads = [tall_first(quad) for quad in quads]
    beside = [quad for quad, is_likely in zip(quads, likely, strict=True) if is_likely] or quads
    places = [place for place in _places(quads, beside, size) if not may_be_card(place)]
    surfaces = [_surface(pyramid, size, place) for place in places]
    bare = [surface for surface in surfaces if surface is not None]
    return [_least_unlike(_surface(pyramid, size, quad), bare) for quad in quads]


def _least_unlike(surface: np.ndarray | None, bare: list[np.ndarray]) -> float:
    if surface is None or not bare:
        return NOT
    return float(np.abs(np.array(bare) - surface).sum(axis=1).min())


def _places(
    quads: list[np.ndarray], beside: list[np.ndarray], size: tuple[int, int]
) -> list[np.ndarray]:
    """Places [4, 2] px beside cards, the nearest first, on which nothing was seen."""
    steps = [0.0, *STEPS, *(-step for step in STEPS)]
    ways = sorted(((x, y) for x in steps for y in steps if x or y),
                  key=lambda way: abs(way[0]) + abs(way[1]))
    found: list[np.ndarray] = []
    unit = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], np.float32)
    for way in ways:
        for quad in beside:
            onto = cv2.getPerspectiveTransform(unit, quad.astype(np.float32))
            place = cv2.perspectiveTransform((unit + np.float32(way))[None], onto)[0].astype(float)
            if _is_free(place, quad, quads, found, size):
                found.append(place)
            if len(found) == MOST:
                return found
    return found


def _is_free(
    place: np.ndarray, card: np.ndarray, quads: list[np.ndarray], found: list[np.ndarray],
    size: tuple[int, int],
) -> bool:
    """Whether a place is one, as large as its card, in the picture, and nothing lies there."""
    frame = np.array([[0, 0], [size[0], 0], size, [0, size[1]]], dtype=np.float64)
    if np.abs(place).max() > 4 * max(size) or not is_convex(place):
        return False
    area = signed_area(place)
    if not 1 / LARGER < area / signed_area(card) < LARGER or overlap(place, frame) < WITHIN * area:
        return False
    return (all(overlap(place, quad) <= TAKEN * area for quad in quads)
            and all(overlap(place, other) <= ALIKE * area for other in found))


def _surface(
    pyramid: Pyramid, size: tuple[int, int], quad: np.ndarray
) -> np.ndarray | None:
    """What a place looks like, as numbers that count alike: tint and brightness; how far brightness
    spreads, and how it is shared out; how fine and which way the pattern runs; how colours go
    together in it. None where next to nothing of it shows. How much each counts was set by hand, on
    pages by other hands; fitted, they told pockets from cards no better."""
    warp = warp_of(pyramid, size, quad, SHOWN, INSET)[0].astype(np.float64)
    framed = warp[..., 3] > 0
    beside, below = framed[:, 1:] & framed[:, :-1], framed[1:] & framed[:-1]
    if min(framed.mean(), beside.mean(), below.mean()) < SHOWS:
        return None
    seen = warp[framed][:, :3]
    light, whole = seen @ BRIGHT, warp[..., :3] @ BRIGHT
    mean, spread = seen.mean(axis=0), max(light.std(), FLAT)
    levels = (np.quantile(light, (0.03, 0.25, 0.5, 0.75, 0.97)) - light.mean()) / spread
    fine, left = [], whole
    for octave in range(4):
        coarser = cv2.GaussianBlur(left, (0, 0), 2.0**octave)
        fine.append(np.log((left - coarser)[framed].std() / spread + 0.02))
        left = coarser
    across, down = np.diff(whole, axis=1)[beside].std(), np.diff(whole, axis=0)[below].std()
    shared = np.cov(seen.T) + np.eye(3) * FLAT**2
    own = np.sqrt(np.diag(shared))
    together = (shared / np.outer(own, own))[[0, 0, 1], [1, 2, 2]]
    return np.concatenate([
        2.5 * (mean - mean.mean()), [1.5 * mean.mean(), np.log(spread)], levels / 5,
        np.array(fine) / 4, [0.5 * np.log((across + 1e-3) / (down + 1e-3))], together / 4,
    ])
