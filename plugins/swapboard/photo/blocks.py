"""Cards pushed together that were taken for one: two by two or three by three.

Such a block has a card's own proportion. Of nine that most are cards by themselves tells; of four
that they have the size of another card, or of half of what else lies there: art in four fields is
not so rare.
"""

import cv2
import numpy as np

from swapboard.photo.find import SMALLEST
from swapboard.photo.geometry import intersection_over_union, side_lengths
from swapboard.photo.looking import Looks
from swapboard.photo.panels import FILL, halves_of
from swapboard.photo.plane import Table, table_of
from swapboard.photo.readings import PERHAPS, card_like, choose, is_likely
from swapboard.photo.refining import Refined

FEW = 3
"""Beside more cards their common size tells (`one_size`)."""

MOST = 7
"""Of a block's nine places, so many at least are cards. (Of what looked like one card in 742 photos
by other hands one thing had more than one such place: a block of eight. Four by two, in one of 165,
such places were the patches of a card.)"""

ON_IT = 0.75
"""Overlap over union of such a place and the card on it: a block is not laid quite straight,
nor seen just to its edge."""

ALIKE = 0.06
"""How far, as a logarithm, sides of one size may differ."""


def parted_blocks(looks: Looks, focal: float | None) -> list[Refined]:
    """What was seen so far, blocks as their cards, and two taken for one beside a block of four
    likewise; `focal` in px where known."""
    chosen = [one for one, _ in choose(looks.looked) if is_likely(one)]
    if not 1 <= len(chosen) <= FEW:
        return looks.looked
    table = table_of([one.quad for one in chosen], *looks.size, focal)
    for block in filter(lambda one: card_like(one.quad), chosen):
        cards = cards_of_nine(looks, block.quad)
        if cards:
            return _instead(looks.looked, [block.quad], cards)
        for other in chosen:
            cards = _of_four(looks, block, other, table) if other is not block else []
            if cards:
                return _instead(looks.looked, [block.quad, other.quad], cards)
    return looks.looked


def cards_of_nine(looks: Looks, quad: np.ndarray) -> list[Refined]:
    """The cards of a block three by three on a quad [4, 2] px, of which few may lack; nothing, if
    it is none. The middle one is looked at first: mostly that is enough."""
    places = _fields(quad, 3)
    if _card_on(looks, places[4]) is None:
        return []
    cards = [card for place in places if (card := _card_on(looks, place)) is not None]
    return cards if len(cards) >= MOST else []


def _of_four(looks: Looks, block: Refined, other: Refined, table: Table) -> list[Refined]:
    """The cards of a block two by two, and those of what else lies there; nothing, if that says
    nothing of their size, or one of them is none."""
    quarters = _fields(block.quad, 2)
    parts = _parts_of_size(other, table.size_of(quarters[0]), table)
    cards: list[Refined] = []
    for place in quarters + parts if parts else []:
        card = _card_on(looks, place)
        if card is None:
            return []
        cards.append(card)
    return cards


def _fields(quad: np.ndarray, count: int) -> list[np.ndarray]:
    """The quad's `count` × `count` fields [4, 2] px, alike on its own plane, row by row."""
    unit = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], np.float32)
    onto = cv2.getPerspectiveTransform(unit, quad.astype(np.float32))
    fields = [(unit + (x, y)) / count for y in range(count) for x in range(count)]
    return [cv2.perspectiveTransform(field[None].astype(np.float64), onto)[0] for field in fields]


def _parts_of_size(one: Refined, size: np.ndarray, table: Table) -> list[np.ndarray]:
    """A card of that size itself, or the halves of two in one; nothing, if neither is."""
    for parts in ([one.quad], halves_of(one.quad)):
        if np.abs(np.log(table.size_of(parts[0]) / size)).max() < ALIKE:
            return parts
    return []


def _card_on(looks: Looks, quad: np.ndarray) -> Refined | None:
    """What likely is a card just on a quad [4, 2] px; None where nothing is."""
    if side_lengths(quad).min() < SMALLEST:
        return None
    card = looks.reading(quad)
    if card is None or min(card.tight, card.loose) < PERHAPS or not card_like(card.quad):
        return None
    return card if intersection_over_union(card.quad, quad) > ON_IT else None


def _instead(
    looked: list[Refined], wholes: list[np.ndarray], cards: list[Refined]
) -> list[Refined]:
    kept = [one for one in looked
            if all(intersection_over_union(one.quad, whole) < FILL for whole in wholes)]
    return kept + cards
