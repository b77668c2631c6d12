"""What from afar is one card: all that looks like cards in it is its art.

From near, patches of a quilt and panels look as much like cards as cards on a sheet do. From afar
a card's patches vote for the card, and cards each for itself.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from swapboard.photo.geometry import overlap, signed_area
from swapboard.photo.proportion import proportion_of
from swapboard.photo.readings import (
    COVERED,
    MOST_ART,
    PANELS,
    PERHAPS,
    WHOLLY,
    is_likely,
    open_like,
    side_by_side,
)
from swapboard.photo.refining import Refined
from swapboard.photo.voting import Glances

NEARLY, PLAINLY = 0.97, 0.985
"""So much like a card from near, tight and loose, that it is one where most votes are for it; and
where nearly all are, whatever lies in it: a page, which from afar looks like one card, holds more
than a card has panels. (Of 18 that had nearly all votes and lost to what lies in them, in 2,145
pictures by other hands, 15 were cards, and two pages: .95 and .96.)"""

PAGE = (1.08, 1.34)
"""Proportions of pages of nine pockets with a border of holes, some 9 to 9.25 by 11.25 in (common
practice, no source), and of what lies under them, as they are mostly told: such may hold cards,
however like one it looks. (Of 108 by other hands six looked like a card beyond doubt.)"""

MOSTLY, NEARLY_ALL = 0.5, 0.9
"""How much of what is one card from afar votes for it. (Of what looks nearly like a card and lost
to no more than panels, in 3,025 pictures by other hands, all above 0.5 was a card or a panel of
one; of two cards taken for one never more than 0.38 was for that.)"""

TWO = 2
"""So many wholes in one reading are several cards, not one. (Of seven such crops in 2,145 pictures
by other hands two were one card, and those were as long as an open one.)"""


@dataclass(frozen=True, slots=True)
class Whole:
    """What is one card from afar, as `seen` from near; `plain` where it is one whatever lies in
    it."""

    seen: Refined
    plain: bool


def seen_whole(
    looked: Iterable[Refined], glances: Glances, size: tuple[int, int], focal: float | None = None
) -> list[Whole]:
    """Which of what was proposed from afar is seen as one card there, and may be one from near, in
    a picture of `size` (w, h) px; `focal` in px where known."""
    found = []
    for one in looked:
        near = min(one.tight, one.loose) - COVERED * one.hidden
        votes = glances.agreed_on(one.quad) if near > PERHAPS else 0.0
        if votes > NEARLY_ALL or (votes > MOSTLY and near > NEARLY):
            is_page = PAGE[0] < proportion_of(one.quad, *size, focal) < PAGE[1]
            found.append(Whole(one, votes > NEARLY_ALL and near > PLAINLY and not is_page))
    return found


def without_art(looked: list[Refined], wholes: list[Whole]) -> list[Refined]:
    """All readings but what lies in one of the wholes that are among them, and but what holds two
    of those; a page is none."""
    known = {id(one) for one in looked}
    cards = [whole for whole in wholes
             if id(whole.seen) in known and (whole.plain or not _holds_many(whole.seen, looked))]
    return [one for one in without_pairs(looked, cards)
            if not any(is_art(one, card.seen) for card in cards)]


def without_pairs(looked: Iterable[Refined], wholes: list[Whole]) -> list[Refined]:
    """All readings but what holds two of the wholes side by side: several cards seen as one. What
    is as long as an open card may be one all the same, by its panels."""
    return [one for one in looked if open_like(one.quad)
            or len(side_by_side([part.seen for part in wholes if is_art(part.seen, one)])) < TWO]


def _holds_many(card: Refined, looked: list[Refined]) -> bool:
    held = [one for one in looked if is_likely(one) and is_art(one, card)]
    return len(side_by_side(held)) > PANELS


def is_art(one: Refined, card: Refined) -> bool:
    """Whether a reading lies in a card and is no other reading of it."""
    area, most = abs(signed_area(one.quad)), MOST_ART * abs(signed_area(card.quad))
    return area < most and overlap(one.quad, card.quad) > WHOLLY * area
