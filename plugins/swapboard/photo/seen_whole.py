"""What from afar is one card: all that looks like cards in it is its art.

From near, patches of a quilt and panels look as much like cards as cards on a sheet do. From afar
a card's patches vote for the card, and cards each for itself.
"""

from collections.abc import Iterable

from swapboard.photo.geometry import overlap, signed_area
from swapboard.photo.readings import (
    COVERED,
    MOST_ART,
    PANELS,
    PERHAPS,
    WHOLLY,
    is_likely,
    side_by_side,
)
from swapboard.photo.refining import Refined
from swapboard.photo.voting import Glances

PLAINLY = 0.985
"""So much like a card from near, tight and loose, that it is one whatever lies in it; a page, which
looks like one card from afar, holds more than a card has panels. (Of 16 seen whole that lost to
what lies in them, in 2,140 pictures by other hands, 14 were cards, and two pages: .95 and .96.)"""


def seen_whole(looked: Iterable[Refined], glances: Glances) -> list[Refined]:
    """Which of what was proposed from afar is seen as one card there, and may be one from near."""
    return [one for one in looked if _may_be_one(one) and glances.sees_one(one.quad)]


def _may_be_one(one: Refined) -> bool:
    return min(one.tight, one.loose) - COVERED * one.hidden > PERHAPS


def is_plain(whole: Refined) -> bool:
    """Whether what from afar is one card plainly is so from near too."""
    return min(whole.tight, whole.loose) > PLAINLY


def without_art(looked: list[Refined], wholes: list[Refined]) -> list[Refined]:
    """All readings but what lies in one of the wholes that are among them; a page is none."""
    known = {id(one) for one in looked}
    cards = [whole for whole in wholes if id(whole) in known and not _holds_many(whole, looked)]
    return [one for one in looked if not any(_is_art(one, card) for card in cards)]


def _holds_many(whole: Refined, looked: list[Refined]) -> bool:
    held = [one for one in looked if is_likely(one) and _is_art(one, whole)]
    return not is_plain(whole) and len(side_by_side(held)) > PANELS


def _is_art(one: Refined, card: Refined) -> bool:
    area, most = abs(signed_area(one.quad)), MOST_ART * abs(signed_area(card.quad))
    return area < most and overlap(one.quad, card.quad) > WHOLLY * area
