"""A card whose art is all fields, as a quilt's or a comic's, each of which looks like a card.

Where the proposer sees nothing but those, nobody looks at the whole: here what they fill together
is looked at. Cards pushed together fill a whole as well, but those have a card's own shape.
"""

from math import log

import cv2
import numpy as np

from swapboard.photo.geometry import mean_sides, overlap, signed_area
from swapboard.photo.looking import Looks
from swapboard.photo.panels import hull_of
from swapboard.photo.proportion import by_side_lengths, proportion_of
from swapboard.photo.readings import CARD_LIKE, PERHAPS, choose, side_by_side
from swapboard.photo.refining import Refined
from swapboard.photo.seen_whole import NEARLY, Whole, is_art
from swapboard.photo.whole_frame import CARD_PROPORTION

FEWEST = 4
"""So many fields at least: fewer are panels, of which `panels` tells."""

NEXT = 1.3
"""So many times as large as they are, fields of one card lap over each other."""

FILL = 0.8
"""Of what lies within all of them, what they fill at least."""

SHAPED, SOME = 0.06, 0.25
"""How far, as a logarithm, the whole may be from a card's proportion; and how many of its fields
may have that too."""


def with_patchwork(wholes: list[Whole], looks: Looks, focal: float | None) -> list[Whole]:
    """What from afar is seen as one card, and what is one though all that was seen there are fields
    of it, none of which is one then: that is looked at; `focal` in px where known."""
    cards = _patchwork(looks, focal)
    looks.looked += cards
    kept = [whole for whole in wholes if not any(is_art(whole.seen, card) for card in cards)]
    return kept + [Whole(card, True) for card in cards]


def _patchwork(looks: Looks, focal: float | None) -> list[Refined]:
    """What surely looks like a card, though fields are seen in it; few of them shaped as one."""
    fields = side_by_side([one for one, _ in choose(looks.looked) if one.tight > PERHAPS])
    found = []
    for some in _together(fields):
        whole = _around(some) if len(some) >= FEWEST else None
        if whole is None or _has_cards(some, whole):
            continue
        card = looks.reading(whole)
        if card is None or min(card.tight, card.loose) < NEARLY or _has_cards(some, card.quad):
            continue
        if abs(log(proportion_of(card.quad, *looks.size, focal) / CARD_PROPORTION)) < SHAPED:
            found.append(card)
    return found


def _together(fields: list[Refined]) -> list[list[Refined]]:
    """Those fields that lie next to each other, and next to those, and so on."""
    groups: list[list[Refined]] = []
    for one in fields:
        near = [group for group in groups if any(_is_next(one, other) for other in group)]
        groups = [group for group in groups if all(group is not other for other in near)]
        groups.append([one, *(other for group in near for other in group)])
    return groups


def _is_next(one: Refined, other: Refined) -> bool:
    return overlap(_larger(one.quad), _larger(other.quad)) > 0


def _larger(quad: np.ndarray) -> np.ndarray:
    middle = quad.mean(axis=0)
    return middle + (quad - middle) * NEXT


def _around(fields: list[Refined]) -> np.ndarray | None:
    """The quadrilateral [4, 2] px about fields that fill it; None where they do not."""
    quad = hull_of([one.quad for one in fields])
    if quad is None or sum(one.area for one in fields) < FILL * signed_area(quad):
        return None
    return quad


def _has_cards(fields: list[Refined], whole: np.ndarray) -> bool:
    """Whether more than some of the fields, in a whole [4, 2] px of a card's proportion, have that
    too."""
    across, down = mean_sides(whole)
    wide, tall = (CARD_PROPORTION, 1.0) if across > down else (1.0, CARD_PROPORTION)
    box = np.array([[0, 0], [wide, 0], [wide, tall], [0, tall]], np.float32)
    onto = cv2.getPerspectiveTransform(whole.astype(np.float32), box)
    flat = [cv2.perspectiveTransform(one.quad[None], onto)[0] for one in fields]
    shaped = [CARD_LIKE[0] < by_side_lengths(quad) < CARD_LIKE[1] for quad in flat]
    return sum(shaped) > SOME * len(fields)
