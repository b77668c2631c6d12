"""The cards in a photograph: their corners, how sure, and what is amiss.

Proposals are made on a copy some 1000 px long, rated there, and the best that
do not overlap are finished at full resolution.
"""

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from swapboard.photo.filling import Filling
    from swapboard.photo.networks import Networks
    from swapboard.photo.whole_frame import Within

WORKING_SIZE = 1000
SMALLEST = 24
"""px: no card is found with a shorter side."""

AGREEING_SIZE = 500
"""px: where networks look first, edges are asked only whether they come to the same."""


@dataclass(frozen=True, slots=True)
class Found:
    """One card found in a picture.

    `corners`: four (x, y) in px of the upright picture, clockwise from the
    card's own top left; pixel (0, 0) covers (0, 0)–(1, 1); for rounded
    corners the sharp ones they would have. `proportion`: long over short
    side, perspective removed where it can be. `kind`: "card", "folded open" or
    "other size". `confidence`: 0–1. `doubtful`: somebody should look before
    it is published; `reasons` says why, and what else a maker may mend.
    """

    corners: tuple[tuple[float, float], ...]
    proportion: float
    kind: str
    confidence: float
    doubtful: bool
    reasons: tuple[str, ...]


def find_cards(
    picture: np.ndarray, focal: float | None = None, networks: "Networks | None" = None
) -> tuple[Found, ...]:
    """The cards in a picture, in reading order.

    `picture` uint8 [h, w, 3] sRGB, upright; `focal` in px where known;
    without `networks` by edges and colours alone. The same picture gives the
    same corners on any number of threads: nothing is random and no sum
    depends on the order of work.
    """
    from swapboard.photo.filling import filling_of, first_seen
    from swapboard.photo.verdict import with_shortcomings
    from swapboard.photo.whole_frame import CLEARLY

    if min(picture.shape[:2]) < SMALLEST:
        return ()
    filling, found = filling_of(picture, networks), None
    if networks is not None and filling.at_once >= CLEARLY:
        # It is the card, but for cards laid out in it: a look at those is enough.
        found = _as_whole(picture, filling, first_seen(picture, networks))
    if found is None:
        found = _as_whole_or_apart(picture, focal, networks, filling)
    return in_reading_order(tuple(with_shortcomings(picture, card) for card in found))


def _as_whole_or_apart(
    picture: np.ndarray, focal: float | None, networks: "Networks | None", filling: "Filling"
) -> list[Found]:
    from swapboard.photo.whole_frame import Within

    if networks is None:
        found = _by_edges(picture, focal, WORKING_SIZE)
        likely = [card for card in found if card.confidence >= 0.5]
    else:
        found, likely = _by_networks(picture, focal, networks)
    inner = [Within(np.array(card.corners), card.proportion) for card in likely]
    return _as_whole(picture, filling, inner) or found


def _as_whole(
    picture: np.ndarray, filling: "Filling", inner: list["Within"]
) -> list[Found] | None:
    """The picture as one card, if that is what it is; `inner` is what was found in it."""
    from swapboard.photo.verdict import judge_whole
    from swapboard.photo.whole_frame import (
        CLEARLY,
        SURELY_NOT,
        is_exact,
        is_whole_card,
        stands_out,
    )

    height, width = picture.shape[:2]
    filled, at_once = filling.filled, filling.at_once
    if not is_whole_card(width, height, inner, filled, at_once):
        return None
    # Several cards pushed together fill a picture of a card's proportion too.
    unclear = filled < CLEARLY or len(inner) > 1
    unseen = max(filled, at_once) < SURELY_NOT and not is_exact(width, height)
    doubt = unseen or (unclear and stands_out(width, height, inner))
    return [judge_whole(picture, filling.corners, doubt)]


def _by_edges(picture: np.ndarray, focal: float | None, size: int) -> list[Found]:
    """What edges and colours alone show, on a copy of that size, px."""
    from swapboard.photo.proposals import propose
    from swapboard.photo.rating import best_rated
    from swapboard.photo.selection import select
    from swapboard.photo.shrinking import working_copy
    from swapboard.photo.sides import fit_sides
    from swapboard.photo.verdict import judge

    small, scale = working_copy(picture, size)
    found = []
    for pick in select(best_rated(small, propose(small)), small.shape[:2]):
        full = pick.quad / scale
        reach = max(2.5 / scale, 2.0)
        fit = fit_sides(picture, full, (reach, reach / 2, max(reach / 3, 1.5)))
        found.append(judge(picture, full if fit is None else fit.quad, fit, pick, focal))
    return found


def _by_networks(
    picture: np.ndarray, focal: float | None, networks: "Networks"
) -> tuple[list[Found], list[Found]]:
    """What was found, and which of it is likely a card, whatever else is amiss with it."""
    from swapboard.photo.learned import see_cards
    from swapboard.photo.sureness import lying_of
    from swapboard.photo.telling import (
        cut_off_told,
        likely_enough,
        open_doubted,
        patches_doubted,
        small_doubted,
        wants_agreement,
        with_open_pair,
    )
    from swapboard.photo.verdict import LIKELY, TOUCHING, judge_seen

    seen, cut, glances = see_cards(picture, networks, focal)
    height, width = picture.shape[:2]
    lying = lying_of(seen, width, height, focal)
    asked = wants_agreement(seen, lying)
    by_edges = _by_edges(picture, focal, AGREEING_SIZE) if asked else []
    sure = [np.array(card.corners) for card in by_edges if not card.doubtful]
    judged = [
        judge_seen(picture, one, sure, how) for one, how in zip(seen, lying, strict=True)
    ]
    told = likely_enough(seen, judged, lying, (width, height))
    told = open_doubted(with_open_pair(told, picture, focal), glances)
    told = patches_doubted(small_doubted(told, (width, height), focal), (width, height))
    likely_ones = [card for card, share in told if share >= LIKELY or TOUCHING in card.reasons]
    return [card for card, _ in told] + cut_off_told(cut, told), likely_ones


def in_reading_order(found: tuple[Found, ...]) -> tuple[Found, ...]:
    """Row by row from the top, each row from the left.

    A card belongs to the row whose first card's middle it is level with to
    within half that card's height.
    """
    rest = sorted(found, key=lambda card: (_middle(card)[1], _middle(card)[0]))
    ordered: list[Found] = []
    while rest:
        top = rest[0]
        ys = [y for _, y in top.corners]
        limit = _middle(top)[1] + (max(ys) - min(ys)) / 2
        row = [card for card in rest if _middle(card)[1] <= limit]
        ordered.extend(sorted(row, key=lambda card: (_middle(card)[0], _middle(card)[1])))
        rest = [card for card in rest if _middle(card)[1] > limit]
    return tuple(ordered)


def _middle(card: Found) -> tuple[float, float]:
    xs, ys = zip(*card.corners, strict=True)
    return sum(xs) / 4, sum(ys) / 4
