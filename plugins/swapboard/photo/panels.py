"""Whether two rectangles side by side are two cards, or one that lies open.

Cards laid side by side by hand leave a gap, a step or a turn; the panels of a folded card
share their edge. So two halves that meet exactly, with no other card about, are one card, and
one card whose halves are apart is two. In a grid, a page or a scan cards are pushed together:
there what is as large as two of the others is two.
"""

from collections.abc import Sequence
from itertools import combinations

import cv2
import numpy as np

from swapboard.photo.geometry import (
    intersection_over_union,
    overlap,
    side_lengths,
    signed_area,
)
from swapboard.photo.plane import Table
from swapboard.photo.readings import card_like, open_like

MEET, LAP = 0.02, 0.06
"""How far the ends of two sides may be apart, as a share of a side's length, to be one edge; and
where two lap over each other, as no two cards beside each other do."""

AJAR = 0.0065
"""Likewise, how wide a gap is, where it is narrowest, that no fold leaves: the table shows between
two cards. (Of 9 open cards seen by their panels the widest was 0.0049; a gap of 1 mm is 0.011.)"""

APART = 0.03
"""Likewise, how far apart the halves are of what surely looked like one card, for that to be two.
(Of four such in 1,700 photos by other hands two were two, 0.053 and 0.084 apart, two one, 0.023 at
most.)"""

STRAIGHT = 0.003
"""Of its length: how far the ends of such an edge may lie off the side that runs past it."""

TWICE = (1.6, 2.5)
"""How many times as large as the others two cards are that were taken for one: about 2, and a
quarter less or more under the steepest tilts."""

SAY_SIZE = 2
"""So many others say how large a card is: one alone may be of another make."""

FILL = 0.9
"""Overlap over union of a card's halves with what was found in them, from which those are cards:
pictures drawn side by side in one card keep away from its edge."""


def halves_of_pairs(
    quads: Sequence[np.ndarray], cards: Sequence[np.ndarray], table: Table | None = None
) -> list[np.ndarray]:
    """Both halves [4, 2] px of each of the quads that is as large as two of the cards beside it,
    as they lie on the table they share, if it is known."""

    def area_of(quad: np.ndarray) -> float:
        return abs(signed_area(quad if table is None else table.level(quad[None])[0]))

    halves, areas = [], [area_of(card) for card in cards]
    for quad in quads:
        apart = 0.1 * abs(signed_area(quad))
        beside = [area for card, area in zip(cards, areas, strict=True)
                  if overlap(card, quad) < apart]
        if len(beside) >= SAY_SIZE and TWICE[0] < area_of(quad) / np.median(beside) < TWICE[1]:
            halves.extend(halves_of(quad))
    return halves


def are_apart(halves: Sequence[np.ndarray], whole: np.ndarray) -> bool:
    """Whether two quads [4, 2] px are the halves of a third, but for a gap between them."""
    return are_halves(halves, whole) and meeting(*halves)[0] > APART


def are_halves(halves: Sequence[np.ndarray], whole: np.ndarray) -> bool:
    """Whether two quads [4, 2] px are the two halves of a third: nearly all of each."""
    return all(intersection_over_union(half, part) > FILL
               for half, part in zip(halves, halves_of(whole), strict=True))


def halves_of(quad: np.ndarray) -> list[np.ndarray]:
    """The two parts [4, 2] px of a quad that are alike on its own plane, along its longer sides."""
    return parts_of(quad, 2)


def parts_of(quad: np.ndarray, count: int) -> list[np.ndarray]:
    """So many parts [4, 2] px of a quad, alike on its own plane, along its longer sides."""
    top, right, bottom, left = side_lengths(quad)
    corners = np.roll(quad, -1, axis=0) if top + bottom < right + left else quad
    unit = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], np.float32)
    onto = cv2.getPerspectiveTransform(unit, corners.astype(np.float32))
    parts = [(unit + (at, 0)) * (1 / count, 1) for at in range(count)]
    return [cv2.perspectiveTransform(np.float32(part)[None], onto)[0] for part in parts]


def joined(quads: Sequence[np.ndarray]) -> list[np.ndarray]:
    """Those of the quads [4, 2] px that are parts of one card as that card: proposals.

    Halves that a shadow parts; the panels of a card that lies open, told from
    cards side by side by readings that share a panel, or are no card's shape.
    """
    whole = []
    for i, one in enumerate(quads):
        for other in quads[:i]:
            shared = overlap(one, other)
            smaller = min(signed_area(one), signed_area(other))
            apart = shared < 0.05 * smaller
            if apart and (card_like(one) or card_like(other)):
                continue
            if shared > 0.8 * smaller:
                continue
            quad = hull_of([one, other])
            both = signed_area(one) + signed_area(other) - shared
            if quad is None or signed_area(quad) > 1.2 * both:
                continue
            if card_like(quad) or (not apart and open_like(quad)):
                whole.append(quad)
    return whole


def hull_of(quads: Sequence[np.ndarray]) -> np.ndarray | None:
    """The quadrilateral [4, 2] px about quads, clockwise; None where there is none."""
    hull = cv2.convexHull(np.concatenate(quads).astype(np.float32))
    quad = cv2.approxPolyN(hull, 4, ensure_convex=True).reshape(-1, 2).astype(np.float64)
    if len(quad) != 4:
        return None
    return quad if signed_area(quad) > 0 else quad[::-1]


def open_pair(
    quads: Sequence[np.ndarray], likely: Sequence[bool]
) -> tuple[int, int, np.ndarray] | None:
    """Which two of the quads [4, 2] px share an edge, and their four outer corners, clockwise.

    `likely` says which are cards as good as certainly; none of those may be left over. None
    where no two meet.
    """
    needed = {at for at, one in enumerate(likely) if one}
    pairs = [pair for pair in combinations(range(len(quads)), 2) if needed <= set(pair)]
    meetings = [(*meeting(quads[i], quads[j]), i, j) for i, j in pairs]
    if not meetings:
        return None
    gap, one, other, i, j = min(meetings, key=lambda met: met[0])
    if gap > MEET and not (gap < LAP and _one_lapped(one, other)):
        return None
    if _ajar(one, other) > AJAR:
        return None
    return i, j, np.array([one[2], one[3], other[2], other[3]])


def held_together(
    after: Sequence[np.ndarray], before: Sequence[np.ndarray], likely: Sequence[bool]
) -> list[np.ndarray]:
    """Quads [4, 2] px `after` each was brought onto edges of its own; but the two that shared an
    edge `before`, if they do no longer, as they were: near a fold lie the edges of what is drawn
    along it. (In 180 photos by other hands so lay two of 23 open cards, and no two cards.)"""
    pair = open_pair(before, likely)
    if pair is None or open_pair(after, likely) is not None:
        return list(after)
    return [before[at] if at in pair[:2] else quad for at, quad in enumerate(after)]


def share_edge(one: np.ndarray, other: np.ndarray) -> bool:
    """Whether two quads [4, 2] px meet along one side of each."""
    return meeting(one, other)[0] <= MEET


def meeting(one: np.ndarray, other: np.ndarray) -> tuple[float, np.ndarray, np.ndarray]:
    """How far two quads' nearest sides are apart, and the quads begun with those sides."""
    turned = [
        (np.roll(one, -i, axis=0), np.roll(other, -j, axis=0)) for i in range(4) for j in range(4)
    ]
    gaps = [_gap(*pair) for pair in turned]
    best = int(np.argmin(gaps))
    return gaps[best], *turned[best]


def _ajar(one: np.ndarray, other: np.ndarray) -> float:
    """How wide the gap between two quads' first sides is where it is narrowest, of a side's
    length; less than 0 where they lap."""
    along = one[1] - one[0]
    outward = np.array([along[1], -along[0]]) / (along @ along)
    return float(((other[1::-1] - one[:2]) @ outward).min())


def _one_lapped(one: np.ndarray, other: np.ndarray) -> bool:
    """Whether two quads, begun with the sides that are to be one, lap over each other there and
    run straight on: a fold was seen twice, and each time not quite in its place."""
    gap, along = np.linalg.norm(one[:2] - other[1::-1], axis=1).max(), side_lengths(one)[0]
    if overlap(one, other) < gap * along / 4:
        return False
    ends = (one[:2] + other[1::-1]) / 2
    start, run = one[[3, 2]], other[[2, 3]] - one[[3, 2]]
    off = run[:, 0] * (ends - start)[:, 1] - run[:, 1] * (ends - start)[:, 0]
    return bool((np.abs(off) / np.sum(run**2, axis=1)).max() < STRAIGHT)


def _gap(one: np.ndarray, other: np.ndarray) -> float:
    """How far the first side of one is from the first of the other, run the other way."""
    apart = np.linalg.norm(one[:2] - other[1::-1], axis=1).max()
    return float(apart / side_lengths(one)[0])
