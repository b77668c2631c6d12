"""Pale cards with little on them, which look more like a sheet of paper than like a card."""

from swapboard.photo.find import SMALLEST
from swapboard.photo.geometry import is_within, overlap, side_lengths, signed_area
from swapboard.photo.readings import card_like, choose, has_kin
from swapboard.photo.refining import Refined

HELD = 0.85
"""Of a side's length, on a straight line: from there on the side is beyond doubt."""

STILL = 0.01
"""Of the card's height: how far its corners may have moved last."""


def well_held(refined: Refined, size: tuple[int, int]) -> bool:
    """Whether all sides of a whole rectangle of a card's proportion hold, card or not."""
    quad = refined.quad
    clear = float(refined.held.min()) > HELD and refined.moved < STILL
    shaped = card_like(quad) and side_lengths(quad).min() >= SMALLEST
    return is_within(quad, size) and clear and shaped


def pale_cards(
    pale: list[Refined], chosen: list[Refined]
) -> list[tuple[Refined, float]]:
    """Of what looks more like a sheet of paper, such as has a card's sides: those of the size
    of likely cards in the picture, and where there is nothing else the best."""
    free = [
        one for one in pale
        if all(overlap(one.quad, other.quad) < 0.1 * signed_area(one.quad) for other in chosen)
    ]
    if chosen:
        return choose([one for one in free if has_kin(one, chosen)])
    return choose(free)[:1]
