"""Two cards taken for one that lies open, or for one of another size: told by what lies about them.

Where many others say how large a card is, `panels` parts them; here it is few that say so.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import permutations
from operator import gt

import numpy as np

from swapboard.photo.blocks import ALIKE
from swapboard.photo.finishing import RESIZED
from swapboard.photo.flatbed import is_scanned
from swapboard.photo.geometry import intersection_over_union, overlap
from swapboard.photo.looking import Looks
from swapboard.photo.panels import FILL, SAY_SIZE, are_apart, are_halves, halves_of, parts_of
from swapboard.photo.plane import table_of
from swapboard.photo.readings import (
    PERHAPS,
    SURE,
    WHOLLY,
    card_like,
    choose,
    is_likely,
    lies_beyond,
    open_like,
    side_by_side,
    worth,
)
from swapboard.photo.refining import Refined
from swapboard.photo.seen_whole import Whole

LESS = 0.1
"""How much less than a card its halves may be worth, to be two cards in place of it."""

SAME_HALF = 0.8
"""Overlap over union of a half of one and a half of another from which those are one card: nothing
is a panel of two that lie open."""


def parted_rows(looks: Looks, focal: float | None) -> list[Refined]:
    """What was seen so far, and in place of what likely looks like one card those that it is:
    three in a row, of which one may be less sure; or two, where another that looks so too shares
    one of them, or has just their size, or lies beside it as long as it is, as hardly anybody lays
    out two that lie open. `focal` in px where known."""
    likely = [one for one, _ in choose(looks.looked) if is_likely(one)]
    likely += [one for one in looks.looked if is_likely(one)
               and all(intersection_over_union(one.quad, known.quad) < RESIZED for known in likely)]
    parted: list[Refined] = []
    cards: list[Refined] = []

    def part(whole: Refined, *least: float) -> None:
        parts = parts_of(whole.quad, len(least))
        readings = [looks.reading(quad) for quad in parts]
        like = sorted(map(_how_like_card, readings, parts))
        if all(map(gt, like, sorted(least))):
            parted.append(whole)
            cards.extend(readings)

    for whole in filter(_may_be_three, likely):
        part(whole, PERHAPS, SURE, SURE)
    likely += cards
    sized = _sized(likely, looks.size, focal)
    for whole in sized:
        told = _told_two(whole, [other for other in sized if other is not whole])
        if told and all(whole.seen is not one for one in parted):
            part(whole.seen, told, told)
    left = _without(looks.looked, [whole.quad for whole in parted])
    return [one for one in left if not _holds(one, cards)] + cards


@dataclass(frozen=True, slots=True, eq=False)
class _Sized:
    """What was seen, its halves [4, 2] px, and how large [2] it and they are on the table."""

    seen: Refined
    halves: list[np.ndarray]
    size: np.ndarray
    half_sizes: list[np.ndarray]


def _sized(
    seen: Sequence[Refined], size: tuple[int, int], focal: float | None
) -> list[_Sized]:
    """Each of what was seen in a picture of `size` px, on the table that all share; nothing, where
    it is but one."""
    if len(seen) < 2:
        return []
    table = table_of([one.quad for one in seen], *size, focal)
    halved = [(one, halves_of(one.quad)) for one in seen]
    return [_Sized(one, halves, table.size_of(one.quad), [table.size_of(half) for half in halves])
            for one, halves in halved]


def _told_two(whole: _Sized, others: list[_Sized]) -> float:
    """How much each half of what was seen must look like a card, 0–1, for it to be two, for what
    lies about it; 0 where nothing tells."""
    if any(_shares_half(whole, other) for other in others):
        return PERHAPS
    told = any(_has_size_of_half(other, whole) or _is_open_too(other, whole) for other in others)
    return SURE if told else 0.0


def _may_be_three(one: Refined) -> bool:
    """Whether what was seen is as long as three cards side by side, or end to end."""
    return open_like(one.quad) and all(map(card_like, parts_of(one.quad, 3)))


def _how_like_card(reading: Refined | None, part: np.ndarray) -> float:
    """How much what lies on nearly all of a part [4, 2] px looks like a card, 0–1."""
    if reading is None or intersection_over_union(reading.quad, part) <= FILL:
        return 0.0
    return min(reading.tight, reading.loose)


def _holds(one: Refined, cards: list[Refined]) -> bool:
    """Whether two of the cards, or more, lie side by side on what was seen."""
    within = [card for card in cards if overlap(card.quad, one.quad) > WHOLLY * card.area]
    return len(side_by_side(within)) > 1


def part_pairs(looks: Looks, wholes: list[Whole]) -> list[np.ndarray]:
    """Part, where too few cards say how large one is, two that were taken for one, with a gap
    between, unless from afar they are one, or on a scanner's glass; answers the quads [4, 2] px of
    such as are not parted, but may be two all the same."""
    chosen = [one for one, _ in choose(looks.looked)]
    pairs: list[np.ndarray] = []
    for whole in chosen if len(chosen) <= SAY_SIZE else []:
        halves = _sure_halves(looks, whole)
        quads = [half.quad for half in halves]
        if not halves or not are_halves(quads, whole.quad):
            continue
        is_one = any(whole is one.seen for one in wholes)
        apart = are_apart(quads, whole.quad) and not is_one
        if apart or is_scanned(looks.picture, whole.quad, quads):
            looks.looked = _without(looks.looked, [whole.quad]) + halves
        else:
            pairs.append(whole.quad)
    return pairs


def _shares_half(one: _Sized, other: _Sized) -> bool:
    """Whether a half of the one is a half of the other, and the rest of each lies beside it."""
    return any(
        intersection_over_union(half, its) > SAME_HALF
        and intersection_over_union(rest, other_rest) == 0
        for half, rest in permutations(one.halves)
        for its, other_rest in permutations(other.halves))


def _has_size_of_half(one: _Sized, whole: _Sized) -> bool:
    """Whether what lies beside another has the size of its halves, on the table they share."""
    return all(_alike(size, one.size) for size in whole.half_sizes) and (
        lies_beyond(one.seen, whole.seen))


def _is_open_too(one: _Sized, whole: _Sized) -> bool:
    """Whether both are as long as open cards, of one size, and lie beside each other."""
    both_open = open_like(one.seen.quad) and open_like(whole.seen.quad)
    return both_open and _alike(one.size, whole.size) and lies_beyond(one.seen, whole.seen)


def _alike(size: np.ndarray, other: np.ndarray) -> bool:
    return bool(np.abs(np.log(size / other)).max() < ALIKE)


def _sure_halves(looks: Looks, whole: Refined) -> list[Refined]:
    """Both halves of a card, where each surely is one itself and worth as much; nothing else."""
    halves: list[Refined] = []
    for quad in halves_of(whole.quad):
        half = looks.sure(quad)
        if half is None or worth(half) < worth(whole) - LESS:
            return []
        halves.append(half)
    return halves


def _without(looked: list[Refined], wholes: Sequence[np.ndarray]) -> list[Refined]:
    """What was seen but the readings of some quads [4, 2] px."""
    return [one for one in looked
            if all(intersection_over_union(one.quad, whole) < RESIZED for whole in wholes)]
