"""Which of the rated proposals are the cards, where they lie over one another.

Straight frames lie within cards and cards lie on straight sheets, so neither
the outermost nor the best rated is always right. Proposals that overlap are
compared two by two; then the best that loses to none is taken, what it
overlaps goes, and so on.
"""

from math import log2

import numpy as np

from swapboard.photo.geometry import intersection_over_union, overlap, side_lengths, signed_area
from swapboard.photo.rating import Rated

LEAST_SCORE = 0.55
LEAST_SUPPORT = 0.3
SAME = 0.975
"""Overlap over union from which two proposals are one."""

SMALLEST_ON_SHEET = 0.05
"""Of a sheet's area, a card lying on it; less is a detail of the art."""

PLAIN = 7.0
"""Spread of colours (8-bit Lab) up to which what surrounds a card is plain paper, not art."""

LEAN_OUT = 0.02
"""Lines drawn within a card are crisper than its edge."""

MOST_CARDS = 24


def select(rated: list[Rated], shape: tuple[int, int]) -> list[Rated]:
    """The cards among proposals rated on a picture of `shape` (h, w) px, surest first."""
    able = [r for r in rated if r.score >= LEAST_SCORE and r.support.min() >= LEAST_SUPPORT]
    able = _without_twins(able)
    taken = _take(able, shape)
    lead = _lead(taken, shape)
    if lead is None:
        return sorted(taken, key=lambda r: -_value(r, shape))[:1]
    # Once more without what cannot be a card beside this one, lest it hides one.
    return _take([r for r in able if r is lead or _of_one_kind(r, lead)], shape)


def _take(able: list[Rated], shape: tuple[int, int]) -> list[Rated]:
    """The best that loses to none, without what overlaps it the next, and so on."""
    beaten = _beaten(able)
    alive = list(range(len(able)))
    taken: list[Rated] = []
    while alive and len(taken) < MOST_CARDS:
        unbeaten = [i for i in alive if not any(j in beaten[i] for j in alive)]
        best = max(unbeaten or alive, key=lambda i: (_value(able[i], shape), -i))
        taken.append(able[best])
        alive = [i for i in alive if i != best and not _touch(able[i], able[best])]
    return taken


def card_like(rated: Rated) -> bool:
    """Near enough a card's proportion: playing and bridge size, tilted views' error included."""
    return 1.28 <= rated.proportion <= 1.62


def _area(rated: Rated) -> float:
    return abs(signed_area(rated.quad))


def _value(rated: Rated, shape: tuple[int, int]) -> float:
    """Score, with a little for size: details are many and small."""
    share = _area(rated) / (shape[0] * shape[1])
    return round(rated.score + 0.05 * min(max(log2(share / 0.05), -3), 2), 9)


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
    if share < 0.9:
        return outer.score > inner.score
    ahead = inner.held - outer.held
    if card_like(inner) and not card_like(outer):
        return ahead < -0.3
    if not card_like(inner):
        return ahead < 0.3 if card_like(outer) else ahead < 0.1
    size = _area(inner) / _area(outer)
    if size > 0.4 and _shared_sides(outer, inner) >= 2:
        return _plainly(outer) + LEAN_OUT >= _plainly(inner)
    on_sheet = SMALLEST_ON_SHEET < size < 0.4 and _likely(inner)
    if on_sheet and (inner.surround < PLAIN or _has_equals(inner, outer, all_of_them)):
        return False
    return outer.held > 0.7 or ahead < 0.15


def _likely(rated: Rated) -> bool:
    return 1.33 <= rated.proportion <= 1.47 and rated.score > 0.8


def _has_equals(inner: Rated, outer: Rated, all_of_them: list[Rated]) -> bool:
    """Whether another likely card of the same size lies beside it on the same sheet."""
    return any(
        other is not inner
        and 0.6 < _area(other) / _area(inner) < 1.6
        and _likely(other)
        and not _touch(other, inner)
        and overlap(other.quad, outer.quad) > 0.9 * _area(other)
        for other in all_of_them
    )


def _plainly(rated: Rated) -> float:
    """Support with a little for contrast: a shadow's edge is fainter than the card's own."""
    return rated.held + 0.05 * float(np.log2(rated.contrast.clip(1)).mean())


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


def _lead(taken: list[Rated], shape: tuple[int, int]) -> Rated | None:
    """The surest of those that look like cards: it sets the size for the others."""
    leaders = [r for r in taken if card_like(r) and r.score > 0.7]
    return max(leaders, key=lambda r: _value(r, shape), default=None)


def _of_one_kind(one: Rated, lead: Rated) -> bool:
    """Cards in one picture are about one size; grids and details are not."""
    return card_like(one) and one.score > 0.7 and 0.3 < _area(one) / _area(lead) < 3.3
