"""Which of the networks' readings of one place is the card.

Frames, panels and half shadows within a card look like cards too; so do empty
pockets around one, and two cards side by side. Proportion breaks ties alone:
as more than that it would lock onto wrong rectangles.
"""

from math import log

import numpy as np

from swapboard.photo.geometry import intersection_over_union, overlap
from swapboard.photo.proportion import OPEN_FROM, by_side_lengths
from swapboard.photo.refining import Refined

SAME = 0.35
"""Overlap over union from which two are one card, or two readings of it."""

WITHIN = 0.6
"""Of the smaller one's area within the larger from which only one of them is a card."""

TIE = 0.03
"""What a card's proportion is worth between two readings of one place."""

KIN = 0.1
"""What a likely card elsewhere of the same size and proportion is worth."""

SURE = 0.9
"""So much like a card, tight and loose, that other readings are held against it."""

PERHAPS = 0.5
"""So much like a card, tight and loose, that what lies in it and has no card's shape is its art."""

PATCH = 0.4
"""Of a card's area, a patch of its art at most: less than one of two cards taken for one has."""

SPECK = 0.04
"""Of a likely card's area: what is smaller and has no like beyond it is a patch of its art of any
shape; and of what may be one's, what is smaller and looks like an open card: none is so small on
its sheet."""

QUILT = 10
"""So many specks on one card: what else lies in it are patches too, several seen as one."""

COVERED = 0.2
"""What is taken off a reading over which something seems to lie, or that the frame cuts: where
another fits that is whole, it is the card."""

HALF_SEEN = 0.5
"""How likely something lies over what looks like an open card, for it to be one panel and some of
another: no panel yields to that."""

WHOLLY = 0.93
"""Of a reading's area, what must lie in another to be part of it."""

LAPS = 0.03
"""Of a card's area: where more of it lies over another, the two are not side by side."""

USUAL, ODD = (7 / 5, 15 / 7, 14 / 5, 21 / 5), 0.1
"""Proportions of a card and of two or three panels open; and how far off, as a logarithm, no tilt
of some 25° makes them look."""

CARD_LIKE, STEEP = (1.25, 1.75), 1.14
"""Proportions that cards of some deck have, as they look under the usual tilts; and the least that
one of 7:5 has at 35°."""

CLEARER = 0.08
"""How much more than a likely card what lies in it may be worth and be drawn on it: what is clearer
than that is the card, and the larger one no reading of it. (Of 5,160 cards in pictures by other
hands that spoilt none.)"""

FILL = 0.7
"""Of a reading's area, what cards side by side on it fill of it at least to be there instead."""

PANELS = 3
"""So many cards of one size in what looks like an open card are its panels, or drawn on them."""

LEAST_ART, MOST_ART = 0.25, 0.85
"""Of a card's area, a frame within it: what is smaller may be a card on a sheet, what is larger in
a pocket that looks like a card."""


def choose(looked: list[Refined]) -> list[tuple[Refined, float]]:
    """The best of those that lie over one another, each with its best rival's `tight`; what several
    of them fill is no rival, but those seen as one."""
    worths = _worths(looked)
    order = sorted(
        range(len(looked)), key=lambda i: (-round(worths[i], 6), -looked[i].area, i))
    chosen: list[Refined] = []
    rivals: list[float] = []
    for one in (looked[i] for i in order):
        against = [i for i, other in enumerate(chosen) if _one_card(one, other)]
        if not against:
            chosen.append(one)
            rivals.append(0.0)
            continue
        if _filled(one, [chosen[i] for i in against]):
            continue
        for i in against:
            if intersection_over_union(one.quad, chosen[i].quad) < 0.93:
                rivals[i] = max(rivals[i], one.tight)
    return list(zip(chosen, rivals, strict=True))


def worth(refined: Refined) -> float:
    """What one reading is worth by itself: how sure it is tight, how well its sides hold, and
    that nothing lies over it."""
    held = float(np.sort(refined.held)[:2].mean())
    shaped = TIE * float(card_like(refined.quad))
    return refined.tight + 0.3 * refined.loose + 0.2 * held + shaped - COVERED * refined.hidden


def card_like(quad: np.ndarray) -> bool:
    """Whether a quadrilateral as it looks, perspective and all, may be a card of some deck."""
    return CARD_LIKE[0] <= by_side_lengths(quad) <= CARD_LIKE[1]


def open_like(quad: np.ndarray) -> bool:
    """Whether it may be two or three panels side by side, seen under some tilt."""
    return OPEN_FROM <= by_side_lengths(quad) <= 5.0


def of_usual_size(quad: np.ndarray) -> bool:
    """Whether its sides are, a little perspective aside, as a card's or an open card's are."""
    proportion = by_side_lengths(quad)
    return any(abs(log(proportion / one)) < ODD for one in USUAL)


def is_sure(one: Refined) -> bool:
    """Whether it surely is a card, closed or open."""
    return is_likely(one) and (card_like(one.quad) or open_like(one.quad))


def _worths(looked: list[Refined]) -> list[float]:
    """The worth of each beside the others.

    One with kin elsewhere gains. What lies in a likely card is worth less than that, unless
    several fill it, as a pair of cards does: it is a frame or a panel of it. But a card has
    kin on a sheet; what is as long as an open card is one only if their kin lies beyond it.
    Patches that have no card's shape, or are small, are the art of what looks like a card about
    them, unless their like lies elsewhere.
    """
    kin = [has_kin(one, looked) and not _is_several(one, looked) for one in looked]
    worths = [worth(one) + KIN * has for one, has in zip(looked, kin, strict=True)]
    for one in filter(_perhaps, looked):
        patches = [j for j, other in enumerate(looked) if _may_be_patch(other, one)]
        beside = [other for other in looked if not _one_card(one, other)] if patches else []
        for j in patches:
            if not has_kin(looked[j], beside):
                worths[j] = min(worths[j], worth(one) - 1e-3)
    by_size = sorted(range(len(looked)), key=lambda i: (-looked[i].area, i))
    for i in filter(lambda i: is_likely(looked[i]), by_size):
        specks = [j for j in by_size if _is_speck(looked[j], looked[i])]
        others = _beyond(looked[i], looked) if specks else []
        if len(specks) >= QUILT:
            specks = [j for j in by_size if _lies_within(looked[j], looked[i], 0.0)]
        for j in specks:
            if not has_kin(looked[j], others):
                worths[j] = min(worths[j], worths[i] - 1e-3)
    for i in filter(lambda i: is_likely(looked[i]), by_size):
        for j in _drawn_on(i, looked, kin, by_size):
            worths[j] = min(worths[j], worths[i] - 1e-3)
    return worths


def _drawn_on(at: int, looked: list[Refined], kin: list[bool], order: list[int]) -> list[int]:
    """Which of the readings, in that order, are but drawn on a likely card: frames and panels.

    Of two that have kin of their own the inner one is a frame, as cards of one hand are framed
    alike. What is clear to see on a card that something covers is no part of it, nor what is far
    clearer than it; and what holds more cards of one size than an open card has panels is a block.
    """
    card = looked[at]
    open_card, covered = open_like(card.quad), card.hidden > HALF_SEEN
    least = 0.0 if open_card else LEAST_ART
    held = [j for j in order if j != at and _lies_within(looked[j], card, least)]
    likely = [j for j in held if is_likely(looked[j])]
    if (open_card and covered) or _filled(card, [looked[j] for j in likely]):
        return []
    if open_card and len(side_by_side([looked[j] for j in likely if kin[j]])) > PANELS:
        return []

    def is_drawn(j: int) -> bool:
        one = looked[j]
        if worth(one) > worth(card) + CLEARER:
            return False
        if covered and is_likely(one) and one.hidden < HALF_SEEN:
            return False
        if kin[at]:
            return kin[j] and one.area < MOST_ART * card.area
        return not kin[j] or (open_card and not has_kin(one, _beyond(card, looked)))

    return [j for j in held if is_drawn(j)]


def is_likely(one: Refined) -> bool:
    """Whether it looks like a card, whatever proportion a tilt gives it."""
    return one.tight > SURE and one.loose > SURE


def _perhaps(one: Refined) -> bool:
    """Whether it looks like a card, and has the proportion of one, seen under whatever tilt."""
    shaped = STEEP < one.proportion <= CARD_LIKE[1]
    return one.tight > PERHAPS and one.loose > PERHAPS and shaped


def has_kin(one: Refined, looked: list[Refined]) -> bool:
    """Whether a likely card of the same size and proportion lies elsewhere."""
    return any(
        other.tight > SURE
        and abs(log(one.area / other.area)) < 0.25
        and abs(log(one.proportion / other.proportion)) < 0.12
        and overlap(one.quad, other.quad) < LAPS * one.area
        for other in looked if other is not one)


def _is_several(one: Refined, looked: list[Refined]) -> bool:
    """Whether what is as large as another is so because both are cards side by side: what may be
    cards fills it, and has its like beyond it."""
    others = _beyond(one, looked)
    cards = [other for other in looked if (_perhaps(other) or is_likely(other))
             and _lies_within(other, one, 0.0) and has_kin(other, others)]
    return _filled(one, cards)


def side_by_side(readings: list[Refined]) -> list[Refined]:
    """The best of those readings that lie over one another: each place once."""
    apart: list[Refined] = []
    for one in sorted(readings, key=worth, reverse=True):
        if all(overlap(one.quad, other.quad) < LAPS * one.area for other in apart):
            apart.append(one)
    return apart


def _beyond(one: Refined, looked: list[Refined]) -> list[Refined]:
    """What lies beside a reading, not on it."""
    return [other for other in looked if lies_beyond(other, one)]


def lies_beyond(one: Refined, other: Refined) -> bool:
    """Whether it lies beside another, not on it."""
    return overlap(one.quad, other.quad) < LAPS * one.area


def _lies_within(one: Refined, outer: Refined, least: float) -> bool:
    area, whole = one.area, outer.area
    return least * whole < area < whole and overlap(one.quad, outer.quad) > WHOLLY * area


def _may_be_patch(one: Refined, card: Refined) -> bool:
    small = one.area < PATCH * card.area and not card_like(one.quad)
    open_card = is_sure(one) and not is_likely(card) and one.area > SPECK * card.area
    return small and not open_card and _lies_within(one, card, 0.0)


def _is_speck(one: Refined, card: Refined) -> bool:
    return one.area < SPECK * card.area and _lies_within(one, card, 0.0)


def _filled(outer: Refined, inner: list[Refined]) -> bool:
    """Whether some of the inner ones lie side by side and fill most of the outer one."""
    apart = side_by_side(inner)
    return len(apart) > 1 and sum(one.area for one in apart) > FILL * outer.area


def _one_card(one: Refined, other: Refined) -> bool:
    shared = overlap(one.quad, other.quad)
    if shared <= 0:
        return False
    areas = one.area, other.area
    return shared > SAME * (sum(areas) - shared) or shared > WITHIN * min(areas)
