"""A card's sides by a network that sees it straightened, with some of what is around it."""

from dataclasses import dataclass, field, replace

import cv2
import numpy as np

from swapboard.photo.geometry import is_convex, meet, signed_area
from swapboard.photo.networks import MARGIN, WARP, Networks
from swapboard.photo.proportion import by_side_lengths
from swapboard.photo.sides import robust_lines
from swapboard.photo.warps import Pyramid, box_in_warp, tall_first, warp_of

SETTLED = 0.008
"""Of a warp's height: when no corner moves farther, another round changes next to nothing."""

STILL = 0.004
"""Likewise: when none does, the last round is as good as another look at what came of it."""

RARE = 1e-3
"""No verdict is surer than that: one look must not outweigh two as sure of the opposite."""

CERTAIN, BARELY = 0.99, 0.2
"""So sure of a card, and so little that something lies over it: another look says nothing new."""

FARTHEST = 0.03
"""Of a warp's height: a last look that moves a corner farther sees something else."""


@dataclass(frozen=True, slots=True)
class Look:
    """What the network says of a quadrilateral straightened: `shares` [4, 144, 112] and
    `verdicts` [3] as `Networks.sides` tells them, of `warp`; `back` is the homography from the
    warp's px to the picture's."""

    warp: np.ndarray
    back: np.ndarray
    shares: np.ndarray
    verdicts: np.ndarray


@dataclass(frozen=True, slots=True)
class Refined:
    """A quadrilateral [4, 2] px after some rounds, and what the network thinks of it.

    `tight`, `loose`: shares 0–1 that it is a card to IoU 0.95 and 0.75; `hidden`: that
    the card is partly hidden or cut; `held` [4]: the share of each side (left, right,
    top, bottom) that lies on its line; `moved`: how far the last round moved a corner,
    as a share of the card's height; `drawn`: the spread of colours on it, `apart`: how
    far its mean colour is from that of what is around it, both 0–1; `look` the last round's;
    `area` px², and `proportion` long over short as it looks: they are asked for very often.
    """

    quad: np.ndarray
    tight: float
    loose: float
    hidden: float
    held: np.ndarray
    moved: float
    drawn: float
    apart: float
    look: Look | None = None
    area: float = field(init=False)
    proportion: float = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "area", abs(signed_area(self.quad)))
        object.__setattr__(self, "proportion", by_side_lengths(self.quad))


def refine(
    pyramid: Pyramid, size: tuple[int, int], quad: np.ndarray, networks: Networks,
    rounds: int = 3, least: float = 0.0, settled: float = SETTLED,
) -> Refined | None:
    """Rounds of looking and moving the sides; None where a round leaves no quadrilateral.

    `size` (w, h) px of the picture; `quad` [4, 2] px clockwise; what looks `loose` like a card
    less than `least` is looked at no longer, nor what moved less than `settled`.
    """
    quad = tall_first(np.asarray(quad, dtype=np.float64))
    answer = None
    for _ in range(rounds):
        if not _possible(quad, size):
            return answer
        look = _look(pyramid, size, quad, networks)
        lines, held = _lines(look.shares)
        corners = meet(lines)
        if corners is None or not is_convex(corners):
            return answer
        moved = float(np.abs(corners - box_in_warp()).max()) / WARP[1] * (1 + 2 * MARGIN)
        quad = cv2.perspectiveTransform(corners[None], look.back)[0]
        tight, loose, hidden = (float(v) for v in look.verdicts)
        answer = Refined(quad, tight, loose, hidden, held, moved, *_colours(look.warp), look)
        if moved < settled or loose < least:
            break
    return answer


@dataclass(frozen=True, slots=True)
class LastLook:
    """A quadrilateral [4, 2] px from its top left, tall side left, and where its sides might run.

    `shares` [4, 144, 112] are the network's in the warp, `onto` the homography from the
    picture's px to the warp's; `verdicts` [n, 3] what it says of `tight`, `loose` and
    `hidden` now, the other way up in the last.
    """

    quad: np.ndarray
    shares: np.ndarray
    onto: np.ndarray
    verdicts: np.ndarray

    def heard(self, refined: Refined) -> Refined:
        """The card with what was said of it in these looks and before: the odds averaged, for
        each depends a little on how the card is seen."""
        before = [refined.tight, refined.loose, refined.hidden]
        odds = log_odds(np.array([before, *self.verdicts])).mean(axis=0)
        tight, loose, hidden = (float(v) for v in 1 / (1 + np.exp(-odds)))
        return replace(refined, tight=tight, loose=loose, hidden=hidden)

    def share_along(self, quad: np.ndarray, side: int) -> float:
        """How sure the network is, 0–1, that a side (0 top, 1 right, …) runs as `quad`'s does."""
        one, other = cv2.perspectiveTransform(
            np.stack([quad[side], quad[(side + 1) % 4]])[None], self.onto)[0] / 2
        rows = self.shares[(2, 1, 3, 0)[side]]
        if side % 2 == 0:
            rows, one, other = rows.T, one[::-1], other[::-1]
        count, bins = rows.shape
        edge = MARGIN / (1 + 2 * MARGIN)
        at = np.arange(int(count * (edge + 0.035)), int(count * (1 - edge - 0.035)) + 1)
        across = one[0] + (at + 0.5 - one[1]) / (other[1] - one[1]) * (other[0] - one[0])
        near = np.floor(across).astype(int)[:, None] + np.arange(-1, 2)
        found = np.take_along_axis(rows[at], near.clip(0, bins - 1), axis=1)
        return float((found * ((near >= 0) & (near < bins))).sum(axis=1).mean())


def log_odds(shares: np.ndarray | float) -> np.ndarray:
    """Of shares 0–1, none nearer than `RARE` to the ends."""
    shares = np.clip(shares, RARE, 1 - RARE)
    return np.log(shares / (1 - shares))


def last_look(
    pyramid: Pyramid, size: tuple[int, int], refined: Refined, networks: Networks,
    among_many: bool = False,
) -> LastLook:
    """The card looked at upside down too, and once more where the last round still moved it.

    What the network says of the two is averaged: errors that depend on which way up it
    sees a side cancel out. The quadrilateral as it was, where that leaves none near it. Among
    many whose common size says as much, what is certain and stood still is not looked at again.
    """
    first, told = refined.look, []
    if first is None or refined.moved >= STILL:
        first = _look(pyramid, size, refined.quad, networks)
        told.append(first.verdicts)
    elif among_many and _is_certain(refined):
        return LastLook(refined.quad, first.shares, np.linalg.inv(first.back), np.empty((0, 3)))
    over, verdicts = networks.sides(first.warp[::-1, ::-1])
    verdicts = np.array([*told, verdicts])
    shares = (first.shares + over[[1, 0, 3, 2], ::-1, ::-1]) / 2
    onto = np.linalg.inv(first.back)
    lines, _ = _lines(shares)
    corners = meet(lines)
    if corners is None or not is_convex(corners):
        return LastLook(refined.quad, shares, onto, verdicts)
    if np.abs(corners - box_in_warp()).max() > FARTHEST * WARP[1]:
        return LastLook(refined.quad, shares, onto, verdicts)
    moved = cv2.perspectiveTransform(corners[None], first.back)[0]
    return LastLook(moved, shares, onto, verdicts)


def _is_certain(refined: Refined) -> bool:
    return min(refined.tight, refined.loose) > CERTAIN and refined.hidden < BARELY


def _look(
    pyramid: Pyramid, size: tuple[int, int], quad: np.ndarray, networks: Networks
) -> Look:
    warp, back = warp_of(pyramid, size, quad)
    return Look(warp, back, *networks.sides(warp))


def _possible(quad: np.ndarray, size: tuple[int, int]) -> bool:
    far = np.array(size) * 1.5
    within = bool(np.all(quad > -far) and np.all(quad < 2 * far))
    return within and is_convex(quad) and signed_area(quad) > 100


def _colours(warp: np.ndarray) -> tuple[float, float]:
    """Spread of colours within the rectangle; distance of its mean from the ring's."""
    (left, top), (right, bottom) = box_in_warp()[[0, 2]].round().astype(int)
    inset = 12
    within = warp[top + inset : bottom - inset, left + inset : right - inset]
    ring = (warp[..., 3] > 0).astype(np.uint8)
    ring[top - 4 : bottom + 4, left - 4 : right + 4] = 0
    told = np.array([cv2.meanStdDev(within[..., colour]) for colour in range(3)])[..., 0, 0]
    spread = float(told[:, 1].mean())
    if not ring.any():
        return spread, 1.0
    away = told[:, 0] - [cv2.mean(warp[..., colour], ring)[0] for colour in range(3)]
    return spread, float(np.linalg.norm(away) / 3**0.5)


def _lines(shares: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Lines [4, 3] of top, right, bottom and left in px of the warp; `held` of left, right,
    top, bottom."""
    tall, flat = _lines_through(shares[:2]), _lines_through(shares[2:].transpose(0, 2, 1))
    left, right = tall[0]
    top, bottom = flat[0][:, [1, 0, 2]]
    return np.array([top, right, bottom, left]), np.concatenate([tall[1], flat[1]])


def _lines_through(rows: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Lines [n, 3] of sides that run down maps [n, rows, bins], and how much of each holds.

    Straight down through the median place, where no better is found.
    """
    points, weight = _places(rows)
    lines, near = robust_lines(points, weight, tolerance=2.0)
    lost = np.isnan(lines[:, :1])
    middle = np.median(points[..., 0], axis=1)
    straight = np.column_stack([np.ones_like(middle), np.zeros_like(middle), -middle])
    return np.where(lost, straight, lines), (weight * near * ~lost).mean(axis=1)


def _places(rows: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """(across, down) px [n, used, 2] of the sides in each row between the corners, and how sure."""
    count, bins = rows.shape[1:]
    edge = MARGIN / (1 + 2 * MARGIN)
    used = np.arange(int(count * (edge + 0.035)), int(count * (1 - edge - 0.035)) + 1)
    rows = rows[:, used]
    window = rows.argmax(axis=2)[..., None] + np.arange(-3, 4)
    shares = np.take_along_axis(rows, window.clip(0, bins - 1), axis=2)
    shares = shares * ((window >= 0) & (window < bins))
    mass = shares.sum(axis=2)
    across = (shares * (window + 0.5)).sum(axis=2) / np.maximum(mass, 1e-9)
    down = np.broadcast_to(used + 0.5, across.shape)
    return np.stack([across, down], axis=2) * 2, mass
