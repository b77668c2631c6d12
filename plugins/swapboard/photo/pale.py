"""Cards that look more like sheets of paper from near: pale ones with little on them, and print."""

from collections.abc import Callable
from itertools import compress

import numpy as np

from swapboard.photo.find import SMALLEST
from swapboard.photo.geometry import is_within, overlap, side_lengths, signed_area
from swapboard.photo.readings import PERHAPS, card_like, choose, has_kin
from swapboard.photo.refining import Refined

HELD = 0.85
"""Of a side's length, on a straight line: from there on the side is beyond doubt."""

STILL = 0.01
"""Of the card's height: how far its corners may have moved last."""

PLAIN, FAINTEST, PRINTED = 0.85, 0.1, 0.1
"""How sure the proposer must be of what looks like no card from near, whatever its shape; how
much it must look like one all the same; and what must be drawn on it. (Of eight such that lay free
in 1,220 photos of cards by other hands seven were cards, and one lay half on one.)"""

Share = Callable[[np.ndarray], float]


def well_held(refined: Refined, size: tuple[int, int]) -> bool:
    """Whether all sides of a whole rectangle hold, card or not."""
    quad = refined.quad
    clear = float(refined.held.min()) > HELD and refined.moved < STILL
    return is_within(quad, size) and clear and side_lengths(quad).min() >= SMALLEST


def pale_cards(
    pale: list[Refined], chosen: list[Refined], share_on: Share
) -> list[tuple[Refined, float]]:
    """Of what looks more like a sheet of paper, such as has a card's sides: those of the size
    of likely cards in the picture, and where there is nothing else the best; and of any shape what
    the proposer, which tells the share of a card on each [4, 2] px, plainly sees as a whole."""
    free = [
        one for one in pale
        if all(overlap(one.quad, other.quad) < 0.1 * signed_area(one.quad) for other in chosen)
    ]
    plain = [is_plain(one, share_on(one.quad)) for one in free]
    shaped = [card_like(one.quad) and (not chosen or has_kin(one, chosen)) for one in free]
    if chosen:
        return choose([one for one, *told in zip(free, plain, shaped, strict=True) if any(told)])
    return choose(list(compress(free, plain))) or choose(list(compress(free, shaped)))[:1]


def is_plain(refined: Refined, share: float) -> bool:
    """Whether what looks like no card from near is one by the share the proposer sees of it."""
    faint = refined.tight > FAINTEST and refined.loose < PERHAPS
    return faint and share > PLAIN and refined.drawn > PRINTED
