"""Which of the rated proposals are the cards, where they lie over one another.

Straight frames lie within cards and cards lie on straight sheets, so neither
the outermost nor the best rated is always right. Proposals that overlap are
compared two by two; then the best that loses to none is taken, what it
overlaps goes, and so on.
"""

import numpy as np

from swapboard.photo.geometry import intersection_over_union, overlap, side_lengths, signed_area
from swapboard.photo.rating import Rated

LEAST_SCORE = 0.55
LEAST_SUPPORT = 0.3
SAME = 0.93
"""Overlap over union from which two proposals are one."""

MOST_CARDS = 24


def select(rated: list[Rated], shape: tuple[int, int]) -> list[Rated]:
    """The cards among proposals rated on a picture of `shape` (h, w) px, surest first."""
    able = [r for r in rated if r.score >= LEAST_SCORE and r.support.min() >= LEAST_SUPPORT]
    able = _without_twins(able)
    beaten = _beaten(able)
    alive = list(range(len(able)))
    taken: list[Rated] = []
    while alive and len(taken) < MOST_CARDS:
        unbeaten = [i for i in alive if not any(j in beaten[i] for j in alive)]
        best = max(unbeaten or alive, key=lambda i: (_value(able[i], shape), -i))
        taken.append(able[best])
        alive = [i for i in alive if i != best and not _touch(able[i], able[best])]
    return _of_one_kind(taken, shape)


def card_like(rated: Rated) -> bool:
    """Near enough a card's proportion: playing and bridge size, tilted views' error included."""
    return 1.28 <= rated.proportion <= 1.62


def _area(rated: Rated) -> float:
    return abs(signed_area(rated.quad))


def _value(rated: Rated, shape: tuple[int, int]) -> float:
    """Score, with a little for size: details are many and small."""
    share = _area(rated) / (shape[0] * shape[1])
    return round(rated.score + 0.05 * float(np.clip(np.log2(share / 0.05), -3, 2)), 9)


def _touch(one: Rated, other: Rated) -> bool:
    return overlap(one.quad, other.quad) > 0.1 * min(_area(one), _area(other))


def _without_twins(rated: list[Rated]) -> list[Rated]:
    kept: list[Rated] = []
    for one in rated:
        if all(intersection_over_union(one.quad, other.quad) < SAME for other in kept):
            kept.append(one)
    return kept


def _beaten(able: list[Rated]) -> list[set[int]]:
    """For each proposal, which ones it loses to."""
    beaten: list[set[int]] = [set() for _ in able]
    for i, one in enumerate(able):
        for j in range(i):
            other = able[j]
            if not _touch(one, other):
                continue
            big, small = (i, j) if _area(one) > _area(other) else (j, i)
            if _outer_wins(able[big], able[small], able):
                beaten[small].add(big)
            else:
                beaten[big].add(small)
    return beaten


def _outer_wins(outer: Rated, inner: Rated, all_of_them: list[Rated]) -> bool:
    share = overlap(outer.quad, inner.quad) / _area(inner)
    ahead = inner.score - outer.score
    if share < 0.9:
        return ahead < 0
    if card_like(inner) and not card_like(outer):
        return ahead < -0.25
    if card_like(outer) and not card_like(inner):
        return ahead < 0.2
    size = _area(inner) / _area(outer)
    if size > 0.4:
        if _shared_sides(outer, inner) >= 2:
            return ahead < 0 if abs(ahead) > 0.02 else _clearer(outer, inner)
        return ahead < 0.15
    if _likely(inner) and (size < 0.2 or _has_equals(inner, outer, all_of_them)):
        return False
    return ahead < 0.15


def _likely(rated: Rated) -> bool:
    return 1.33 <= rated.proportion <= 1.47 and rated.score > 0.8


def _has_equals(inner: Rated, outer: Rated, all_of_them: list[Rated]) -> bool:
    """Whether another likely card of the same size lies beside it on the same sheet."""
    for other in all_of_them:
        alike = 0.6 < _area(other) / _area(inner) < 1.6
        if other is not inner and alike and _likely(other) and not _touch(other, inner):
            if overlap(other.quad, outer.quad) > 0.9 * _area(other):
                return True
    return False


def _clearer(one: Rated, other: Rated) -> bool:
    """A shadow's edge beside a card is fainter than the card's own."""
    return float(np.log(one.contrast.clip(1)).sum()) >= float(np.log(other.contrast.clip(1)).sum())


def _shared_sides(outer: Rated, inner: Rated) -> int:
    """How many of the inner one's sides lie on the outer one's, to 2 % of its size."""
    near = 0.02 * float(side_lengths(outer.quad).mean())
    count = 0
    for start, end in zip(outer.quad, np.roll(outer.quad, -1, axis=0), strict=True):
        along = (end - start) / np.hypot(*(end - start))
        normal = np.array([-along[1], along[0]])
        distance = np.abs((inner.quad - start) @ normal)
        count += int((np.sort(distance)[:2] < near).all())
    return count


def _of_one_kind(taken: list[Rated], shape: tuple[int, int]) -> list[Rated]:
    """Without what only looks like a card beside real ones.

    Cards in one picture are about one size: something card-like sets it, and
    what is not card-like, or far smaller or larger, goes. Where nothing is
    card-like only the best is kept.
    """
    leaders = [r for r in taken if card_like(r) and r.score > 0.7]
    if not leaders:
        return sorted(taken, key=lambda r: -_value(r, shape))[:1]
    lead = max(leaders, key=lambda r: _value(r, shape))
    kept = [
        r
        for r in taken
        if r is lead
        or (card_like(r) and r.score > 0.7 and 0.3 < _area(r) / _area(lead) < 3.3)
    ]
    return sorted(kept, key=lambda r: -_value(r, shape))
