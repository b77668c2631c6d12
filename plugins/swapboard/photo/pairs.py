"""Two cards taken for one that lies open, or for one of another size: told by what lies about them.

Where many others say how large a card is, `panels` parts them; here it is few that say so.
"""

from collections.abc import Sequence
from itertools import permutations

import numpy as np

from swapboard.photo.blocks import ALIKE
from swapboard.photo.finishing import RESIZED
from swapboard.photo.flatbed import is_scanned
from swapboard.photo.geometry import intersection_over_union, overlap
from swapboard.photo.looking import Looks
from swapboard.photo.panels import SAY_SIZE, are_apart, are_halves, halves_of
from swapboard.photo.plane import Table, table_of
from swapboard.photo.readings import (
    PERHAPS,
    SURE,
    WHOLLY,
    choose,
    is_likely,
    lies_beyond,
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
    """What was seen so far, and in place of what likely looks like one card its halves, where each
    of them is likely one, and another of those shares one of them or has just their size: three
    cards in a row, or round a corner, look like two that lie open. `focal` in px where known."""
    likely = [one for one, _ in choose(looks.looked) if is_likely(one)]
    likely += [one for one in looks.looked if is_likely(one)
               and all(intersection_over_union(one.quad, known.quad) < RESIZED for known in likely)]
    if len(likely) < 2:
        return looks.looked
    table = table_of([one.quad for one in likely], *looks.size, focal)
    parted, cards = [], []
    for whole in likely:
        others = [other for other in likely if other is not whole]
        shares = any(_shares_half(whole, other) for other in others)
        if shares or any(_has_size_of_half(other, whole, table) for other in others):
            halves = [looks.reading(quad) for quad in halves_of(whole.quad)]
            if _are_cards(halves, whole, PERHAPS if shares else SURE):
                parted.append(whole.quad)
                cards += halves
    return [one for one in _without(looks.looked, parted) if not _holds(one, cards)] + cards


def _are_cards(halves: Sequence[Refined | None], whole: Refined, least: float) -> bool:
    """Whether something that looks so much like a card lies on each half of what was seen."""
    return all(half is not None and min(half.tight, half.loose) > least for half in halves) and (
        are_halves([half.quad for half in halves], whole.quad))


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


def _shares_half(one: Refined, other: Refined) -> bool:
    """Whether a half of the one is a half of the other, and the rest of each lies beside it."""
    return any(
        intersection_over_union(half, its) > SAME_HALF
        and intersection_over_union(rest, other_rest) == 0
        for half, rest in permutations(halves_of(one.quad))
        for its, other_rest in permutations(halves_of(other.quad)))


def _has_size_of_half(one: Refined, whole: Refined, table: Table) -> bool:
    """Whether what lies beside another has the size of its halves, on the table they share."""
    if not lies_beyond(one, whole):
        return False
    sizes = [table.size_of(quad) for quad in (one.quad, *halves_of(whole.quad))]
    return all(np.abs(np.log(size / sizes[0])).max() < ALIKE for size in sizes[1:])


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
