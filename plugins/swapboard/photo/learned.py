"""Cards by the networks' eyes: proposed by vote, straightened, looked at, chosen."""

import numpy as np

from swapboard.photo.blocks import parted_blocks
from swapboard.photo.bridged import without_gaps
from swapboard.photo.closer import on_sheets, overlooked
from swapboard.photo.cut_off import cut_off
from swapboard.photo.finishing import Seen, seen_last
from swapboard.photo.frames import is_free
from swapboard.photo.geometry import is_within, overlap, signed_area
from swapboard.photo.looking import LEAST_DRAWN, Looks
from swapboard.photo.networks import Networks
from swapboard.photo.one_size import held_to_size, of_one_size
from swapboard.photo.pairs import part_pairs, parted_rows
from swapboard.photo.pale import pale_cards
from swapboard.photo.panels import SAY_SIZE, halves_of_pairs, joined
from swapboard.photo.patchwork import with_patchwork
from swapboard.photo.plane import table_of
from swapboard.photo.readings import (
    PANELS,
    PERHAPS,
    SURE,
    card_like,
    choose,
    has_kin,
    is_sure,
    lies_beyond,
    side_by_side,
    worth,
)
from swapboard.photo.refining import Refined
from swapboard.photo.rows import FEWEST, crossings
from swapboard.photo.seen_whole import seen_whole, without_art, without_pairs
from swapboard.photo.voting import Glances

HARDLY = 0.06
"""How much more than a card one of its parts may be worth. (Of 19 seen so in pictures by other
hands four were one card, and none of their parts worth more by 0.03.)"""


def see_cards(
    picture: np.ndarray, networks: Networks, focal: float | None = None,
) -> tuple[list[Seen], list[np.ndarray], Glances]:
    """The cards in a picture, surest first; those [4, 2] px that the frame cuts too far for it; and
    the picture as the proposer sees it. `focal` in px where known."""
    looks, glances = Looks(picture, networks), Glances(picture, networks)
    looks.look(glances.quads())
    wholes = seen_whole(looks.looked, glances, looks.size, focal)
    wholes = with_patchwork(wholes, looks, focal)
    plain = [whole for whole in wholes if whole.plain]
    looks.looked = without_art(looks.looked, plain)
    unseen = list(looks.lost)
    if not any(map(is_sure, looks.looked)):
        looks.look(glances.large_quads())
        looks.look(glances.broad_quads())
    looks.looked += _left_over(looks, glances)
    looks.looked += on_sheets(looks, glances, [whole.seen for whole in plain])
    parts = len(looks.looked)
    looks.look(joined([one.quad for one in looks.looked]))
    as_one = without_pairs(looks.looked[parts:], wholes)
    looks.looked = without_parts(looks.looked[:parts], as_one)
    looks.look(_halves(looks, focal))
    looks.looked = parted_blocks(looks, focal)
    looks.looked = parted_rows(looks, focal)
    pairs = part_pairs(looks, wholes)
    looks.looked = without_gaps(looks)
    looks.looked += of_one_size(looks, glances, focal)
    more = overlooked(looks, glances, focal)
    looks.looked += more
    looks.looked += of_one_size(looks, glances, focal) if more else []
    looks.looked += _at_crossings(looks, focal)
    looks.looked = without_art(held_to_size(looks.looked, looks.size, focal), wholes)
    chosen = choose(looks.looked)
    chosen += pale_cards(looks.pale, [one for one, _ in chosen], glances.share_on)
    seen = seen_last(picture, looks, chosen, pairs, glances, focal)
    # Of 18 such in photos by other hands two were cards, both among the three it was so sure of.
    likely = [quad for quad in unseen if glances.may_be_card(quad)]
    return seen, cut_off(likely, [one.quad for one in seen], looks.size), glances


def _left_over(looks: Looks, glances: Glances) -> list[Refined]:
    """What surely are cards beside those found, where the proposer saw something left over."""
    found = [one.quad for one, _ in choose(looks.looked) if one.tight > PERHAPS]
    more = looks.sure_ones(glances.turned_quads(found))
    return [one for one in more if is_free(one, found)]


def _halves(looks: Looks, focal: float | None) -> list[np.ndarray]:
    """Halves [4, 2] px of what is as large as two of the likely cards beside it."""
    cards = [one.quad for one, _ in choose(looks.looked)
             if one.tight > PERHAPS and card_like(one.quad)]
    table = table_of(cards, *looks.size, focal) if len(cards) >= SAY_SIZE else None
    return halves_of_pairs([one.quad for one in looks.looked], cards, table)


def _at_crossings(looks: Looks, focal: float | None) -> list[Refined]:
    """Likely cards where rows and columns of sure ones cross, within the picture.

    Something must be drawn on them: the bare lid or table between others has a card's sides.
    """
    sure = np.array([one.quad for one, _ in choose(looks.looked) if is_sure(one)])
    if len(sure) < FEWEST:
        return []
    places = crossings(sure, table_of(sure, *looks.size, focal))
    within = [quad for quad in places if is_within(quad, looks.size)]
    found = map(looks.reading, filter(looks.may_hold, within))
    return [one for one in found if one is not None and one.drawn > LEAST_DRAWN
            and min(one.tight, one.loose) > PERHAPS]


def without_parts(parts: list[Refined], wholes: list[Refined]) -> list[Refined]:
    """Both, without the parts of what surely is one card; what holds more sure cards than a card
    has panels is a sheet, and no card."""
    wholes = [whole for whole in wholes if len(side_by_side(
        [part for part in parts if is_sure(part) and _is_in(part, whole)])) <= PANELS]
    ones = [whole for whole in wholes if _is_one(whole, parts)]
    return [part for part in parts if not any(_is_in(part, whole) for whole in ones)] + wholes


def _is_one(whole: Refined, parts: list[Refined]) -> bool:
    """Whether what surely looks like a card is one: two cards seen as one look less like it than
    each of them, or some beside them are as large as each."""
    own = [part for part in parts if _is_in(part, whole)]
    if whole.tight <= SURE or any(worth(part) >= worth(whole) + HARDLY for part in own):
        return False
    beyond = [part for part in parts if lies_beyond(part, whole)]

    def is_as_large_as_some(part: Refined) -> bool:
        alike = [one for one in beyond if has_kin(part, [one])]
        return is_sure(part) and len(side_by_side(alike)) >= SAY_SIZE

    return not any(map(is_as_large_as_some, own))


def _is_in(part: Refined, whole: Refined) -> bool:
    return overlap(part.quad, whole.quad) >= 0.9 * signed_area(part.quad)
